-- SPDX-License-Identifier: MIT
-- What rule files and designs may name: the same short list that forebay itself lets them use.

local kinds = {}
for row in io.lines("engine/catalogue/kinds.def") do
  kinds[#kinds + 1] = row:match("^K%(([%w_]+)")
end

-- Words in C: {"name", function, in_data}, and {"name", function} in the rulebook.
local function read(path)
  local file = assert(io.open(path))
  local text = file:read("*a")
  file:close()
  return text
end

local function add(to, path, pattern, data)
  local before = #to
  for name, in_data in read(path):gmatch(pattern) do
    if in_data == "true" or not data then to[#to + 1] = name end
  end
  assert(#to > before or data, path .. " holds no word that this pattern finds")
  return to
end

local script_word = '{%s*"([%w_]+)",%s*[%w_]+,%s*(%a+)%s*}'
local function words(data)
  local names = add({}, "engine/script/words.c", script_word, data)
  for _, library in ipairs { "string", "table", "math" } do
    names[library] = { fields = add({}, "engine/script/words_" .. library .. ".c", script_word, data) }
  end
  return names
end

stds.design = { read_globals = words(true) }
for _, names in ipairs { kinds, { "polygon", "circle", "ellipse", "rectangle" } } do
  for _, name in ipairs(names) do table.insert(stds.design.read_globals, name) end
end

stds.rules = { read_globals = add(words(false), "engine/rulebook/words.c", '{%s*"([%w_]+)",%s*word_[%w_]+%s*}') }
for _, verb in ipairs { "rule", "adjust", "retire", "stock" } do table.insert(stds.rules.read_globals, verb) end

exclude_files = { "**/annotations/*.lua" }
std = "design"
files["rules/**/*.lua"] = { std = "rules" }
max_line_length = 120
