-- SPDX-License-Identifier: MIT
local ferrule = require "ferrule"

local worked = {
  hose = {inside = "12.7 mm", outside = "19.9 mm"},
  stem = {outside = "12.95 mm"},
  ferrule = {wall = "2.4 mm", outside = "25.6 mm"},
}
local press = {graduation = "0.05 mm", opening = "25 mm"}
local rack = {"16 mm", "19 mm", {size = "22 mm", adapter = 1}, "25 mm"}
local setup = ferrule.plan_setup({joint = worked, widest = "38 mm"}, press, rack)

print(ferrule.readiness_sentence(setup.readiness))
print("target " .. setup.target:format(".2f mm") .. ", " .. setup.plain.value:format(".1f %"))
print("die " .. tostring(setup.die.die.size) .. ", dial " .. setup.dial.value.setting:format(".2f mm"))
for _, remark in ipairs(setup.remarks) do
  print(ferrule.remark_severity(remark) .. ": " .. ferrule.remark_sentence(remark))
end

worked.stem.outside = "19.9 mm"
local is_done, failure = pcall(ferrule.crimp_diameter, worked, "20 %")
print(is_done, failure.name)
