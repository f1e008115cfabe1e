-- SPDX-License-Identifier: MIT
-- What rule files and designs may name: the same short list that forebay itself lets them use.

local kinds = {}
for row in io.lines("engine/catalogue/kinds.def") do
  kinds[#kinds + 1] = row:match("^K%(([%w_]+)")
end

local words = { "q", "ipairs", "pairs", "tostring" }
local text = { fields = { "format" } }
local list = { fields = { "insert", "concat" } }

stds.design = { read_globals = { "polygon", "circle", "ellipse", "rectangle", string = text, table = list } }
for _, names in ipairs { words, kinds } do
  for _, name in ipairs(names) do table.insert(stds.design.read_globals, name) end
end

stds.rules = {
  read_globals = {
    "rule", "adjust", "retire", "at_least", "at_most", "within", "must", "is", "type", "tonumber", "select",
    math = { other_fields = true }, string = { other_fields = true }, table = { other_fields = true },
  },
}
for _, name in ipairs(words) do table.insert(stds.rules.read_globals, name) end

exclude_files = { "**/annotations/*.lua" }
std = "design"
files["rules/**/*.lua"] = { std = "rules" }
max_line_length = 120
