// SPDX-License-Identifier: MIT
import ferrule.*;
import java.util.List;

class Embed {
    public static void main(String[] arguments) {
        Joint worked = new Joint(new Hose("12.7 mm", "19.9 mm"), new Stem("12.95 mm"),
                                 new Ferrule("2.4 mm").withOutside("25.6 mm"));
        Press press = new Press().withGraduation("0.05 mm").withOpening("25 mm");
        List<Die> rack = List.of(new Die("16 mm"), new Die("19 mm"), new Die("22 mm").withAdapter(1), new Die("25 mm"));
        Setup setup = Crimp.planSetup(new Order(worked).withWidest("38 mm"), press, rack);

        System.out.println(setup.readiness().sentence());
        System.out.println("target " + setup.target().format(".2f mm") + ", " + setup.plain().value().format(".1f %"));
        System.out.println("die " + setup.die().die().size() + ", dial " + setup.dial().value().setting().format(".2f mm"));
        setup.remarks().forEach(remark -> System.out.println(remark.severity() + ": " + remark.sentence()));

        try {
            Crimp.crimpDiameter(worked.withStem("19.9 mm"), "20 %");
        } catch (FerruleException refused) {
            System.out.println(refused.status());
        }
    }
}
