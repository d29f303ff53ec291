// SPDX-License-Identifier: MIT
using System;
using System.Collections.Generic;
using System.Collections.ObjectModel;
using System.Linq;
using System.Runtime.InteropServices;
using System.Text;

namespace Crimping
{
    /// <summary>How values travel to the library and back, see typed.h: a number of words, then the words.</summary>
    internal sealed class Words
    {
        private const int LongResult = 1024;
        private readonly long[] words;
        private int at = 1;

        static Words()
        {
            if (new Words(NativePINVOKE.layout()).TakeText() != Layout.Text)
                throw new DllNotFoundException("The library ferrule_csharp that was loaded is of another version than Ferrule.dll");
        }

        private Words(int count)
        {
            words = new long[count + 1];
            words[0] = count;
        }

        /// <summary>What came back; a failure is thrown.</summary>
        internal Words(IntPtr result)
        {
            long count = Marshal.ReadInt64(result);
            words = new long[Math.Abs(count) + 1];
            Marshal.Copy(result, words, 0, words.Length);
            if (words.Length > LongResult)
                NativePINVOKE.done();
            if (count < 0)
                throw Failure();
        }

        private FerruleException Failure()
        {
            int code = (int)Take();
            string quantity = TakeText(), name = TakeText(), called = TakeText(), path = TakeText(), message = TakeText();
            string function = string.Concat(called.Split('_').Select(part => part.Substring(0, 1).ToUpperInvariant() + part.Substring(1)));
            bool isNamed = message.StartsWith(called + ":", StringComparison.Ordinal);
            return new FerruleException(code, quantity, name, function, path, isNamed ? function + message.Substring(called.Length) : message);
        }

        internal void Done()
        {
        }

        // ---- passing ----

        internal void Put(long word)
        {
            words[at++] = word;
        }

        internal void PutNumber(double number)
        {
            words[at++] = BitConverter.DoubleToInt64Bits(number);
        }

        internal void Skip(int count)
        {
            at += count;
        }

        /// <summary>A word that is none of them becomes one that the library refuses.</summary>
        internal void PutSet<T>(IReadOnlyList<T> set, Func<T, long> number)
        {
            long bits = 0;
            foreach (T one in set)
                bits |= 1L << (number(one) < 0 || number(one) > 62 ? 62 : (int)number(one));
            Put(bits);
        }

        internal static Words Zero(int count, long first)
        {
            var w = new Words(count);
            w.words[1] = first;
            return w;
        }

        internal static long[] Of(long word)
        {
            return new[] { 1, word };
        }

        internal static long[] Of(double number)
        {
            return new[] { 1, BitConverter.DoubleToInt64Bits(number) };
        }

        internal static long[] Of(Value value, int size)
        {
            var w = new Words(size);
            value.Write(w);
            return w.words;
        }

        internal static long[] Of(string text)
        {
            if (text == null)
                return null;
            byte[] bytes = Encoding.UTF8.GetBytes(text);
            var words = new long[bytes.Length / 8 + 2]; // C needs a zero byte behind it
            words[0] = bytes.Length;
            Buffer.BlockCopy(bytes, 0, words, 8, bytes.Length);
            return words;
        }

        /// <summary>A value that must not be null.</summary>
        internal static T Given<T>(T value, string kind, string function, string name) where T : class
        {
            if (value == null)
                Read(kind, function, name, null);
            return value;
        }

        internal static Given<T> Else<T>(Given<T> given, T other)
        {
            if (given.IsThere)
                return given;
            return new Given<T>(other);
        }

        internal static long[] List<T>(IEnumerable<T> values, string kind, int size, Action<T, Words> write, string function, string name)
        {
            if (values == null)
                return null;
            T[] all = values.ToArray();
            var w = new Words(checked(all.Length * size));
            for (int i = 0; i < all.Length; i++)
            {
                if (all[i] == null)
                    Read(kind, function, name + "[" + i + "]", null);
                write(all[i], w);
            }
            return w.words;
        }

        /// <summary>A list of a fixed length.</summary>
        internal static IReadOnlyList<T> Exactly<T>(IEnumerable<T> values, int count, string kind, string name)
        {
            T[] all = values == null ? new T[0] : values.ToArray();
            if (values == null || all.Length != count)
                throw new FerruleException(0, "Type", "", kind, name, kind + ": " + name + " has to be a list of " + count);
            return new ReadOnlyCollection<T>(all);
        }

        internal static IReadOnlyList<T> Set<T>(IEnumerable<T> values, bool mayLack, string kind, string name)
        {
            if (values == null && !mayLack)
                throw new FerruleException(0, "Type", "", kind, name, kind + ": " + name + " has to be a list");
            return new ReadOnlyCollection<T>((values ?? new T[0]).Distinct().OrderBy(one => one).ToArray());
        }

        // ---- taking ----

        internal long Take()
        {
            return words[at++];
        }

        internal double TakeNumber()
        {
            return BitConverter.Int64BitsToDouble(words[at++]);
        }

        internal string TakeText()
        {
            var bytes = new byte[Take()];
            Buffer.BlockCopy(words, at * 8, bytes, 0, bytes.Length);
            at += (bytes.Length + 7) / 8;
            return Encoding.UTF8.GetString(bytes);
        }

        internal IReadOnlyList<T> TakeList<T>(int count, Func<Words, T> read)
        {
            var all = new T[count];
            for (int i = 0; i < count; i++)
                all[i] = read(this);
            return new ReadOnlyCollection<T>(all);
        }

        internal IReadOnlyList<T> TakeSet<T>(Func<int, T> word)
        {
            long bits = Take();
            var set = new List<T>();
            for (int number = 0; number < 63; number++)
                if ((bits >> number & 1) != 0)
                    set.Add(word(number));
            return new ReadOnlyCollection<T>(set);
        }

        // ---- text and units ----

        /// <summary>Text as a value of a kind; what is wrong with it names function and argument.</summary>
        internal static Words Read(string kind, string function, string name, string text)
        {
            return new Words(NativePINVOKE.read(Of(kind), Of(function), Of(name), Of(text)));
        }

        /// <summary>Text of a quantity with its decimal sign.</summary>
        internal static Words Parse(string kind, string text, char decimalSign)
        {
            return new Words(NativePINVOKE.parse(Of(kind), Of(text), Of(decimalSign.ToString())));
        }

        internal static string Written(string kind, long[] value, string form)
        {
            return new Words(NativePINVOKE.text(Of(kind), value, Of(form))).TakeText();
        }

        internal static double Number(string kind, double number, string unit)
        {
            return new Words(NativePINVOKE.number(Of(kind), Of(number), Of(unit))).TakeNumber();
        }

        internal static double Divisor(double divisor, string kind)
        {
            if (divisor == 0)
                throw new FerruleException(0, "Type", "", kind, "", kind + ": divided by zero");
            return divisor;
        }
    }
}
