-- SPDX-License-Identifier: MIT
-- Engineering mathematics of crimping hose couplings.
--
--   local ferrule = require "ferrule"
--   local diameter = ferrule.crimp_diameter(joint, "20 %")
--   print(diameter.mm, diameter:format(".4f in"))
--
-- Functions, quantities and structs are those of the manual. ferrule.functions and ferrule.kinds say what there is,
-- and ferrule.help("crimp_diameter") what it does.
local core = require "ferrule.core"
local description = core.describe()

local ferrule = {functions = {}, kinds = {}, statuses = {}}
local helpers = {make = true, parse = true, text = true, number = true, compute = true, describe = true}

for name, value in pairs(core) do
  local is_number = type(value) == "number"
  if not helpers[name] and (is_number or type(value) == "function") then ferrule[name] = value end
end
for _, row in ipairs(description.functions) do
  if core[row.name] then ferrule.functions[row.name] = row end
end
for _, row in ipairs(description.kinds) do ferrule.kinds[row.name] = row end
for _, row in ipairs(description.statuses) do ferrule.statuses[row.name] = row end

-- Quantities: numbers that carry their unit. They do not change.
local quantity = {}

function quantity.__tostring(value) return core.text(value, "") end
function quantity.__lt(a, b) return core.compute(a, "<=>", b) < 0 end
function quantity.__le(a, b) return core.compute(a, "<=>", b) <= 0 end
function quantity.__add(a, b) return core.compute(a, "+", b) end
function quantity.__sub(a, b) return core.compute(a, "-", b) end
function quantity.__mul(a, b) return core.compute(a, "*", b) end
function quantity.__div(a, b) return core.compute(a, "/", b) end
function quantity.__unm(a) return core.compute(a, "*", -1.0) end

local function format(value, form) return core.text(value, form or "") end

function quantity.__index(value, name)
  if name == "format" then return format end
  return core.number(value, tostring(name))
end

-- Structs: tables with the members' names; ferrule.Hose{inside = "12.7 mm", outside = "19.9 mm"} checks them at once.
local function equal(a, b)
  if getmetatable(a) ~= getmetatable(b) then return false end
  for name, value in pairs(a) do
    if value ~= b[name] and not (type(value) == "table" and type(b[name]) == "table" and equal(value, b[name])) then
      return false
    end
  end
  for name in pairs(b) do
    if a[name] == nil then return false end
  end
  return true
end

for name, metatable in pairs(core.metatables) do
  local kind = ferrule.kinds[name]
  if kind and kind.form == "quantity" then
    for event, action in pairs(quantity) do metatable[event] = action end
    local base = kind.names[1]
    metatable.__eq = function(a, b) return ferrule.kind(a) == ferrule.kind(b) and a[base] == b[base] end
  elseif kind then
    metatable.__tostring = quantity.__tostring
    metatable.__eq = equal
  end
  if kind and kind.form == "quantity" then
    -- decimal: "," where the text's decimal sign is the comma
    ferrule[name] = function(value, decimal)
      if decimal == nil then return core.make(name, value) end
      return core.parse(name, value, decimal)
    end
  elseif kind and #kind.members > 0 then
    ferrule[name] = function(value) return core.make(name, value) end
  end
  metatable.__metatable = name
end

local error_class = core.metatables.Error
function error_class.__tostring(failure) return failure.where .. failure.message end

-- The kind of a value of ours, such as "Length"; "Error" for an error; nil for anything else.
function ferrule.kind(value)
  local name = getmetatable(value)
  return type(name) == "string" and type(value) ~= "string" and (ferrule.kinds[name] or name == "Error") and name or nil
end

-- What is known about a function, a struct, a quantity, a list of words or a status.
function ferrule.help(name)
  local text, status = require("ferrule.help")[name], ferrule.statuses[name]
  if text or status then return text or name .. "\n\n" .. status.sentence end
  local at = debug.getinfo(2, "Sl")
  error(setmetatable({where = at and at.currentline > 0 and at.short_src .. ":" .. at.currentline .. ": " or "", class = "Type",
                      call = "help", message = "help: nothing is called '" .. tostring(name) .. "'"}, error_class), 0)
end

core.metatables = nil
return ferrule
