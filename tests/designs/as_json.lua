-- SPDX-License-Identifier: MIT
-- Writes a Lua design as JSON; demo_test.c compares the two, so run this whenever that design changes:
--   lua5.4 tests/designs/as_json.lua projects/stone-court.lua > tests/designs/stone-court.json
local order, kinds = {}, {}
local function add(kind, name, t)
  if not kinds[kind] then kinds[kind] = {}; order[#order+1] = kind end
  table.insert(kinds[kind], {name, t})
end
local env = { ipairs = ipairs, pairs = pairs, tostring = tostring, string = string, table = table }
for _, s in ipairs { "polygon", "circle", "ellipse", "rectangle" } do
  env[s] = function(t) return { __shape = s, t } end
end
setmetatable(env, { __index = function(_, kind)
  return function(a)
    if type(a) == "string" then return function(t) add(kind, a, t) end end
    add(kind, nil, a)
  end
end })
-- keep the keys in the order written: scan the source
local src = io.open(arg[1]):read("a")
local function pos(k) return src:find("%f[%w_]" .. k .. " = ") or 1e9 end
assert(load(src, "@" .. arg[1], "t", env))()
local function str(s) return '"' .. s:gsub('\\', '\\\\'):gsub('"', '\\"') .. '"' end
local function dump(v, indent)
  if type(v) == "string" then return str(v) end
  if type(v) == "number" then return ("%.14g"):format(v) end
  if v.__shape then return '{ ' .. str(v.__shape) .. ': ' .. dump(v[1], indent + 2) .. ' }' end
  if #v > 0 then
    local parts = {}
    for i, x in ipairs(v) do parts[i] = dump(x, indent + 2) end
    local flat = "[" .. table.concat(parts, ", ") .. "]"
    if #flat + indent < 110 then return flat end
    local pad = (" "):rep(indent + 2)
    return "[\n" .. pad .. table.concat(parts, ",\n" .. pad) .. "\n" .. (" "):rep(indent) .. "]"
  end
  local keys = {}
  for k in pairs(v) do keys[#keys+1] = k end
  table.sort(keys, function(a, b) local pa, pb = pos(a), pos(b) if pa ~= pb then return pa < pb end return a < b end)
  local parts = {}
  for i, k in ipairs(keys) do parts[i] = str(k) .. ": " .. dump(v[k], indent + 2) end
  local flat = "{ " .. table.concat(parts, ", ") .. " }"
  if #flat + indent < 110 then return flat end
  local pad = (" "):rep(indent + 2)
  return "{\n" .. pad .. table.concat(parts, ",\n" .. pad) .. "\n" .. (" "):rep(indent) .. "}"
end
local out = {}
for _, kind in ipairs(order) do
  local list = kinds[kind]
  if kind == "accept" then
    local inner = {}
    for i, e in ipairs(list) do inner[i] = "    " .. dump(e[2], 4) end
    out[#out+1] = "  " .. str(kind) .. ": [\n" .. table.concat(inner, ",\n") .. "\n  ]"
  elseif not list[1][1] then out[#out+1] = "  " .. str(kind) .. ": " .. dump(list[1][2], 2)
  else
    local inner = {}
    for i, e in ipairs(list) do inner[i] = "    " .. str(e[1]) .. ": " .. dump(e[2], 4) end
    out[#out+1] = "  " .. str(kind) .. ": {\n" .. table.concat(inner, ",\n") .. "\n  }"
  end
end
print("{\n" .. table.concat(out, ",\n") .. "\n}")
