// SPDX-License-Identifier: MIT
// What Java's compiler refuses: each line with a name behind it, and no other. See check_language.py.
import ferrule.*;
import java.util.List;

final class Refused {
    static void calls(Joint joint, List<Die> dies, Length length) {
        Crimp.crimpDiameter(joint, "20 %");
        Crimp.crimpDiameter(joint, 20); // bare_number
        Crimp.crimpDiameter(joint, length); // other_kind
        Crimp.crimpDiameter(joint); // too_few
        Crimp.crimpDiameter(joint, "20 %", new Model(), 1); // too_many
        Crimp.crimpDiameter(joint, "20 %", new Model().withBasis(Basis.WAL)); // unknown_word
        joint.withStm("13 mm"); // unknown_member
        new Hose("12.7 mm"); // missing_member
        Crimp.chooseDie(dies.get(0), "3 mm"); // not_a_list
        Crimp.choosePurchases(dies, List.of(length), List.of("3 mm")); // second_list
        Crimp.crimpDiameter(new Hose("12.7 mm", "19.9 mm"), "20 %"); // wrong_struct
        Crimp.lobeHeight("20 mm", "20 mm", 8.5); // not_whole
        Crimp.lobeHeight("20 mm", "20 mm", 1L << 40); // too_large
        Length sum = length.plus(Pressure.mpa(3)); // sum_of_kinds
        Temperature.celsius(3).plus(Temperature.celsius(4)); // sum_of_temperatures
        length.bar(); // other_unit
    }
}
