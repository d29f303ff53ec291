// SPDX-License-Identifier: MIT
// What C#'s compiler refuses: each line with a name behind it, and no other. See check_language.py.
using Crimping;

internal static class Refused
{
    private static void Calls(Joint joint, Die[] dies, Length length)
    {
        Crimp.CrimpDiameter(joint, "20 %");
        Crimp.CrimpDiameter(joint, 20); // bare_number
        Crimp.CrimpDiameter(joint, length); // other_kind
        Crimp.CrimpDiameter(joint); // too_few
        Crimp.CrimpDiameter(joint, "20 %", new Model(), 1); // too_many
        Crimp.CrimpDiameter(joint, "20 %", new Model(Basis.Wal)); // unknown_word
        joint.With(stm: "13 mm"); // unknown_member
        new Hose("12.7 mm"); // missing_member
        Crimp.ChooseDie(dies[0], "3 mm"); // not_a_list
        Crimp.ChoosePurchases(dies, new[] { length }, new[] { "3 mm" }); // second_list
        Crimp.CrimpDiameter(new Hose("12.7 mm", "19.9 mm"), "20 %"); // wrong_struct
        Crimp.LobeHeight("20 mm", "20 mm", 8.5); // not_whole
        Crimp.LobeHeight("20 mm", "20 mm", 1L << 40); // too_large
        Length sum = length + Pressure.FromMpa(3); // sum_of_kinds
        Temperature both = Temperature.FromCelsius(3) + Temperature.FromCelsius(4); // sum_of_temperatures
        double bar = length.Bar; // other_unit
        length.Mm = 3; // change
        joint.Stem = "13 mm"; // change_of_member
    }
}
