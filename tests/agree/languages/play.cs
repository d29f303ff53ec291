// SPDX-License-Identifier: MIT
// The C# package as check_language.py asks: rows, bad, failing COUNT, speed COUNT, functions, own, odd ROUNDS.
using System;
using System.Collections;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text;
using System.Threading;
using Crimping;

internal static class Play
{
    private static readonly Joint Worked = new Joint(new Hose("12.7 mm", "19.9 mm"), "12.95 mm", new Ferrule("2.4 mm", outside: "25.6 mm"));

    private static readonly Dictionary<Type, string> Bases = new Dictionary<Type, string>
    {
        { typeof(Length), "Mm" }, { typeof(Area), "Mm2" }, { typeof(Force), "Newton" }, { typeof(Pressure), "Mpa" },
        { typeof(Angle), "Rad" }, { typeof(Ratio), "Fraction" }, { typeof(Temperature), "Celsius" }, { typeof(PerLength), "PerMm" },
    };

    private static int Main(string[] given)
    {
        Thread.CurrentThread.CurrentCulture = new CultureInfo("de-DE"); // where a point is a comma
        switch (given[0])
        {
            case "rows": Rows(); break;
            case "functions": Functions(); break;
            case "bad": Bad(); break;
            case "own": Own(); break;
            case "odd": Odd(int.Parse(given[1])); break;
            case "failing": Failing(int.Parse(given[1])); break;
            case "speed": Speed(int.Parse(given[1])); break;
            default: return 2;
        }
        return 0;
    }

    private static string Pascal(string name)
    {
        return string.Concat(name.Split('_').Select(part => part.Substring(0, 1).ToUpperInvariant() + part.Substring(1)));
    }

    // ---- rows of the tables ----

    private sealed class Node : Dictionary<string, object>
    {
    }

    /// a.b=1; l.0.c=2 as dictionaries; places of lists are names of digits.
    private static Node Nest(string text)
    {
        var tree = new Node();
        foreach (string item in text.Split(new[] { "; " }, StringSplitOptions.RemoveEmptyEntries))
        {
            string[] sides = item.Split(new[] { '=' }, 2);
            string[] path = sides[0].Split('.');
            Node node = tree;
            foreach (string name in path.Take(path.Length - 1))
            {
                if (!node.ContainsKey(Pascal(name)))
                    node[Pascal(name)] = new Node();
                node = (Node)node[Pascal(name)];
            }
            node[Pascal(path.Last())] = sides[1];
        }
        return tree;
    }

    private static object Make(Type type, object node)
    {
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IEnumerable<>))
        {
            Type item = type.GetGenericArguments()[0];
            if (item.IsEnum)
                return MakeSet(item, (string)node);
            var items = (Node)node ?? new Node();
            Array made = Array.CreateInstance(item, items.Count);
            for (int i = 0; i < items.Count; i++)
                made.SetValue(Make(item, items[i.ToString()]), i);
            return made;
        }
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(Given<>))
            return MakeGiven(type, node);
        if (node == null)
            return type.IsValueType ? Activator.CreateInstance(type) : CanBeEmpty(type) ? MakeClass(type, new Node()) : null;
        var text = node as string;
        if (text == null)
            return MakeClass(type, (Node)node);
        if (type.IsEnum)
            return Enum.Parse(type, text.Replace("_", "").Replace(" ", ""), true);
        if (type.IsPrimitive)
            return type == typeof(bool) ? text == "true" : Convert.ChangeType(text, type, CultureInfo.InvariantCulture);
        return type.GetMethod("Parse", new[] { typeof(string) }).Invoke(null, new object[] { text });
    }

    private static object MakeSet(Type item, string words)
    {
        object[] chosen = (words ?? "").Split(new[] { ", " }, StringSplitOptions.RemoveEmptyEntries).Select(word => Make(item, word)).ToArray();
        Array made = Array.CreateInstance(item, chosen.Length);
        chosen.CopyTo(made, 0);
        return made;
    }

    private static object MakeGiven(Type type, object node)
    {
        if (node == null)
            return Activator.CreateInstance(type);
        Type from = node is string ? typeof(string) : type.GetGenericArguments()[0];
        return type.GetMethod("op_Implicit", new[] { from }).Invoke(null, new[] { node is string ? node : MakeClass(from, (Node)node) });
    }

    private static bool CanBeEmpty(Type type)
    {
        return type.GetConstructors()[0].GetParameters().All(parameter => parameter.IsOptional);
    }

    private static object MakeClass(Type type, Node node)
    {
        ConstructorInfo constructor = type.GetConstructors()[0];
        return constructor.Invoke(constructor.GetParameters().Select(parameter => Make(parameter.ParameterType, Named(node, parameter))).ToArray());
    }

    private static object Named(Node node, ParameterInfo parameter)
    {
        object value;
        return node.TryGetValue(Pascal(parameter.Name), out value) ? value : null;
    }

    private static object Said(object value)
    {
        if (value is bool)
            return (bool)value ? 1 : 0;
        if (value is IEnumerable && !(value is string))
            return string.Join(", ", ((IEnumerable)value).Cast<object>());
        if (value is double)
            return BitConverter.DoubleToInt64Bits((double)value).ToString("x16");
        string unit;
        if (!Bases.TryGetValue(value.GetType(), out unit))
            return value;
        return BitConverter.DoubleToInt64Bits((double)value.GetType().GetProperty(unit).GetValue(value)).ToString("x16");
    }

    private static object Figure(MethodInfo method, object result, string path)
    {
        string[] names = path.Split('.');
        object value = result;
        var tuple = method.ReturnParameter.GetCustomAttribute<TupleElementNamesAttribute>();
        if (tuple != null)
            value = value.GetType().GetField("Item" + (1 + tuple.TransformNames.IndexOf(Pascal(names[0])))).GetValue(value);
        foreach (string name in names.Skip(1))
            value = value.GetType().GetProperty(Pascal(name)).GetValue(value);
        return value;
    }

    private static int IndexOf(this IList<string> names, string name)
    {
        return names.ToList().FindIndex(one => one == name);
    }

    private static object Call(MethodInfo method, Node tree, object setup)
    {
        object[] values = method.GetParameters().Select(parameter => setup != null && parameter.ParameterType == setup.GetType()
            ? setup : Make(parameter.ParameterType, Named(tree, parameter))).ToArray();
        return method.Invoke(null, values);
    }

    /// With two calls in a line the second one's set-up is what the first one gives.
    private static void Rows()
    {
        var input = new StreamReader(Console.OpenStandardInput(), Encoding.UTF8);
        for (string line = input.ReadLine(); line != null; line = input.ReadLine())
        {
            string[] cells = line.Split('\t');
            MethodInfo method = typeof(Crimp).GetMethod(Pascal(cells[0]));
            try
            {
                object setup = cells.Length > 3 ? Call(typeof(Crimp).GetMethod(Pascal(cells[3])), Nest(cells[4]), null) : null;
                Console.WriteLine(Said(Figure(method, Call(method, Nest(cells[1]), setup), cells[2])));
            }
            catch (TargetInvocationException thrown)
            {
                Console.WriteLine("status " + ((FerruleException)thrown.InnerException).Name);
            }
        }
    }

    private static IEnumerable<MethodInfo> Calls()
    {
        return typeof(Crimp).GetMethods(BindingFlags.Public | BindingFlags.Static).Where(m => !m.IsDefined(typeof(ExtensionAttribute), false));
    }

    private static void Functions()
    {
        foreach (MethodInfo method in Calls())
            Console.WriteLine(method.Name);
        foreach (MethodInfo method in Bases.Keys.SelectMany(kind => kind.GetMethods()).Where(m => m.IsStatic && m.Name.StartsWith("From")))
            Console.WriteLine(method.Name.Substring(4));
    }

    // ---- what must not pass ----

    private static Dictionary<string, Action> Wrong()
    {
        return new Dictionary<string, Action>
        {
            { "missing_unit", () => Crimp.CrimpDiameter(Worked, "20") },
            { "other_kind_text", () => Crimp.CrimpDiameter(Worked, "12.7 mm") },
            { "nan", () => Crimp.CrimpDiameter(Worked, Ratio.FromFraction(double.NaN)) },
            { "empty_list", () => Crimp.SummariseReadings(new Reading[0], new Gauge()) },
            { "empty_text", () => Crimp.CrimpDiameter(Worked, "") },
            { "long_text", () => Crimp.CrimpDiameter(Worked, new string(' ', 2000)) },
            { "zero_byte", () => Crimp.CrimpDiameter(Worked, "20 \0%") },
            { "bad_item", () => Crimp.ChooseDie(new Die[] { "16 mm", "19" }, "3 mm") },
            { "rule", () => Crimp.CrimpDiameter(Worked.With(stem: "19.9 mm"), "20 %") },
            { "unknown_word", () => Crimp.CrimpDiameter(Worked, "20 %", new Model((Basis)99)) },
            { "null_struct", () => Crimp.CrimpDiameter(null, "20 %") },
            { "null_text", () => Crimp.CrimpDiameter(Worked, (string)null) },
            { "null_list", () => Crimp.ChooseDie(null, "3 mm") },
            { "null_item", () => Crimp.ChooseDie(new Die[] { "16 mm", null }, "3 mm") },
            { "null_member", () => new Hose("1 mm", (string)null) },
            { "second_list", () => Crimp.ChoosePurchases(new Die[] { "16 mm" }, new Length[] { "9 mm" }, new Die[] { "9 mm", null }) },
            { "other_length", () => new RandomWords(new uint[3]) },
            { "divided_by_zero", () => (Length.FromMm(3) / 0).ToString() },
        };
    }

    private static void Bad()
    {
        foreach (KeyValuePair<string, Action> call in Wrong())
        {
            try
            {
                call.Value();
            }
            catch (FerruleException e)
            {
                if (e.Code != (int)(e.Status ?? Status.Ok) || e.Name.Replace("_", "").ToLowerInvariant() != (e.Status?.ToString() ?? "").ToLowerInvariant())
                    throw new InvalidOperationException(call.Key + ": status and code differ");
                Console.WriteLine(string.Join("\t", call.Key, e.Quantity, e.Name, e.Function, e.Path, e.Message));
                continue;
            }
            throw new InvalidOperationException(call.Key + " passed");
        }
    }

    private static void FailOften(int count)
    {
        Action[] calls = Wrong().Values.ToArray();
        for (int i = 0; i < count; i++)
        {
            try
            {
                calls[i % calls.Length]();
            }
            catch (FerruleException)
            {
            }
        }
    }

    /// Memory of the process in kB, after the collector has been.
    private static long Memory()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        string line = File.ReadLines("/proc/self/status").First(one => one.StartsWith("VmRSS"));
        return long.Parse(new string(line.Where(char.IsDigit).ToArray()));
    }

    private static void Failing(int count)
    {
        for (int i = 0; i < 2; i++)
        {
            FailOften(count);
            Memory();
        }
        long before = Memory();
        FailOften(count);
        Console.WriteLine(before + " " + Memory());
    }

    private static void Speed(int count)
    {
        Ratio share = Ratio.FromPercent(20);
        Crimp.CrimpDiameter(Worked, share);
        Stopwatch watch = Stopwatch.StartNew();
        for (int i = 0; i < count; i++)
            Crimp.CrimpDiameter(Worked, share);
        Console.WriteLine((count / watch.Elapsed.TotalSeconds).ToString(CultureInfo.InvariantCulture));
    }

    // ---- whatever is passed, it returns or throws an exception of ours ----

    private static readonly double[] Numbers =
        { 0, -0.0, 1, -1, 0.2, 20, 25.4, 1e-300, 1e300, double.NaN, double.PositiveInfinity, double.NegativeInfinity };
    private static readonly long[] Whole = { 0, 1, -1, 8, 255, 1L << 31, 1L << 32, long.MaxValue, long.MinValue };
    private static readonly string[] Texts =
        { null, "", "1 mm", "20 %", "20", "\0", "\u00b5", "5 \u00b5m", "\ud800", new string('x', 5000), "nan mm", "1e999 mm" };

    private static object Any(Type type, Random random)
    {
        Type general = type.IsGenericType ? type.GetGenericTypeDefinition() : type;
        if (general == typeof(IEnumerable<>))
        {
            Array made = Array.CreateInstance(type.GetGenericArguments()[0], random.Next(5));
            for (int i = 0; i < made.Length; i++)
                made.SetValue(Any(type.GetGenericArguments()[0], random), i);
            return random.Next(20) == 0 ? null : made;
        }
        if (general == typeof(Given<>))
        {
            Type from = random.Next(4) == 0 ? typeof(string) : type.GetGenericArguments()[0];
            return type.GetMethod("op_Implicit", new[] { from }).Invoke(null, new[] { Any(from, random) });
        }
        if (general == typeof(Nullable<>))
            return random.Next(4) == 0 ? null : Any(type.GetGenericArguments()[0], random);
        if (type.IsEnum)
            return Enum.ToObject(type, random.Next(4) == 0 ? (int)Whole[random.Next(6)] : random.Next(8));
        if (type == typeof(double))
            return Numbers[random.Next(Numbers.Length)];
        if (type == typeof(bool))
            return random.Next(2) == 0;
        if (type == typeof(string))
            return Texts[random.Next(Texts.Length)];
        long whole = Whole[random.Next(Whole.Length)];
        if (type.IsPrimitive)
            return type == typeof(int) ? (int)whole : type == typeof(uint) ? (uint)whole : type == typeof(ulong) ? (object)(ulong)whole : whole;
        string unit;
        if (Bases.TryGetValue(type, out unit))
            return type.GetMethod("From" + unit).Invoke(null, new object[] { Numbers[random.Next(Numbers.Length)] });
        if (random.Next(20) == 0)
            return null;
        ConstructorInfo constructor = type.GetConstructors()[0];
        return constructor.Invoke(constructor.GetParameters().Select(parameter => Any(parameter.ParameterType, random)).ToArray());
    }

    private static void Odd(int rounds)
    {
        var random = new Random(8);
        int returned = 0;
        foreach (MethodInfo method in Calls().Where(m => !m.Name.StartsWith("Simulate") && m.Name != "DrawJoint"))
        {
            for (int i = 0; i < rounds; i++)
            {
                try
                {
                    object result = method.Invoke(null, method.GetParameters().Select(p => Any(p.ParameterType, random)).ToArray());
                    returned += Convert.ToString(result).Length > -1 ? 1 : 0;
                }
                catch (TargetInvocationException thrown)
                {
                    if (!(thrown.InnerException is FerruleException))
                        throw;
                }
            }
        }
        Console.WriteLine(returned + " returned");
    }

    // ---- what is C#'s own ----

    private static void Check(bool truth, [CallerLineNumber] int line = 0)
    {
        if (!truth)
            throw new InvalidOperationException("not so, at line " + line);
    }

    private static void CheckSign(Func<Length> reading, string name)
    {
        try
        {
            reading();
        }
        catch (FerruleException failure)
        {
            Check(failure.Name == name && failure.Function == "Length");
            return;
        }
        Check(false);
    }

    private static void Own()
    {
        Length three = Length.FromMm(3), inch = "1 in";
        Check(Length.FromMm(25.4) == inch && three < inch && inch >= three && three != inch && !three.Equals(Pressure.FromMpa(3)));
        Check((three + inch).Mm == 28.4 && (three - Length.FromMm(4)).Mm == -1 && (-three).Abs() == three && three.CompareTo(inch) < 0);
        Check((three / Length.FromMm(2)).Percent == 150 && (three * 2).Mm == 6 && (2 * three).Mm == 6 && (Ratio.FromPercent(50) * three).Mm == 1.5);
        Check((three / Ratio.FromPercent(50)).Mm == 6 && (three / 2).Mm == 1.5 && three.GetHashCode() == Length.FromMm(3).GetHashCode());
        Check(Length.Parse("12.7 mm").ToString() == "12.7 mm" && $"{Length.FromInch(1.25):.2f mm}" == "31.75 mm");
        Check(Length.Parse("12,7 mm", ',').Mm == 12.7 && Length.Parse("1\u00bd IN", '.').Mm == 38.1 && Length.Parse("5 mils").Thou == 5);
        Check($"{Length.FromInch(1.25):.1/64 in}" == "1 1/4 in");
        CheckSign(() => Length.Parse("1.234 mm", ','), "TEXT_POINT");
        CheckSign(() => Length.Parse("12,7 mm"), "TEXT_COMMA");
        CheckSign(() => Length.Parse("12,7 mm", ';'), "");
        Check(Length.Parse("5 \u00b5m").Mm == 0.005 && $"{Length.FromMicrometre(5):micrometre}" == "5 \u00b5m");
        Check(Temperature.FromCelsius(20).Fahrenheit == 68 && Length.FromMm(1).Inch == 1 / 25.4 && default(Length).Mm == 0);
        Check(Worked.With(stem: "13 mm").Stem.Outside.Mm == 13 && Worked.Stem.Outside.Mm == 12.95);
        Check(Worked.ToString() == "Joint{hose: {inside: 12.7 mm, outside: 19.9 mm}, stem: {outside: 12.95 mm}, ferrule: {wall: 2.4 mm, outside: 25.6 mm}}");
        Check(new Stem("13 mm").Equals(Stem.Parse("13 mm")) && new Stem("13 mm").GetHashCode() == Stem.Parse("13 mm").GetHashCode());
        Setup setup = Crimp.PlanSetup(new Order(Worked, widest: "38 mm"), new Press(graduation: "0.05 mm"), new Die[] { "16 mm", "22 mm" });
        Check(setup.Uncertainty.Value == null && !setup.Uncertainty.IsFound && setup.Window.IsFound && setup.Equals(setup.With()));
        Trial[] trials = { new Trial("1.51 mm", "23.61 mm") }; // 0.10 mm too large at 1.51: 1.41
        Adjustment corrected = Crimp.CorrectDial(new DialScale(), trials, "23.51 mm");
        Check($"{corrected.Setting:.2f mm}" == "1.41 mm");
        Check(corrected.Equals(Crimp.CorrectDial(new DialScale(), trials, "23.51 mm", new LengthRange("0 mm", "0 mm"))));
        Check(setup.Remarks.Count > 0 && setup.Remarks[0].Sentence().Length > 10 && !setup.Equals(setup.With(segments: 9)));
        Check(Crimp.LengthMaximum == Length.FromMetre(1000) && Crimp.TallyClasses == 512 && (int)Basis.FittedWall == 1);
        Check(Status.Ok.Sentence() == "no error" && setup.Remarks as IList == null || ((IList)setup.Remarks).IsReadOnly);
        CheckWholeNumbers();
        CheckThreads();
    }

    private static void CheckWholeNumbers()
    {
        // Known answer, test vectors of Salmon, Moraes, Dror, Shaw, SC11 (2011).
        RandomWords words = Crimp.FindRandomWords(new RandomWords(Enumerable.Repeat(0xffffffffu, 4)), ulong.MaxValue);
        Check(words.Word.SequenceEqual(new[] { 0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu }));
    }

    /// Eight threads, each with its own figures and failures, get what one alone gets.
    private static void CheckThreads()
    {
        var failures = new List<Exception>();
        Thread[] threads = Enumerable.Range(10, 8).Select(percent => new Thread(() =>
        {
            try
            {
                Ratio share = Ratio.FromPercent(percent);
                Length expected = Crimp.CrimpDiameter(Worked, share);
                string text = percent + " bar";
                for (int k = 0; k < 3000; k++)
                {
                    Check(Crimp.CrimpDiameter(Worked, share) == expected);
                    try
                    {
                        Crimp.CrimpDiameter(Worked, text);
                        Check(false);
                    }
                    catch (FerruleException e)
                    {
                        Check(e.Message.Contains(text));
                    }
                }
            }
            catch (Exception failure)
            {
                lock (failures)
                    failures.Add(failure);
            }
        })).ToArray();
        foreach (Thread thread in threads)
            thread.Start();
        foreach (Thread thread in threads)
            thread.Join();
        Check(failures.Count == 0);
    }
}
