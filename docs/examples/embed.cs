// SPDX-License-Identifier: MIT
using System;
using Crimping;

class Embed
{
    static void Main()
    {
        var worked = new Joint(new Hose(inside: "12.7 mm", outside: "19.9 mm"), new Stem(outside: "12.95 mm"),
                               new Ferrule(wall: "2.4 mm", outside: "25.6 mm"));
        var press = new Press(graduation: "0.05 mm", opening: "25 mm");
        var rack = new Die[] { "16 mm", "19 mm", new Die("22 mm", adapter: 1), "25 mm" };
        var setup = Crimp.PlanSetup(new Order(worked, widest: "38 mm"), press, rack);

        Console.WriteLine(setup.Readiness.Sentence());
        Console.WriteLine($"target {setup.Target:.2f mm}, {setup.Plain.Value:.1f %}");
        Console.WriteLine($"die {setup.Die.Die.Size}, dial {setup.Dial.Value.Setting:.2f mm}");
        foreach (var remark in setup.Remarks)
            Console.WriteLine($"{remark.Severity()}: {remark.Sentence()}");

        try
        {
            Crimp.CrimpDiameter(worked.With(stem: "19.9 mm"), "20 %");
        }
        catch (FerruleException refused)
        {
            Console.WriteLine(refused.Status);
        }
    }
}
