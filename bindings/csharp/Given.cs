// SPDX-License-Identifier: MIT
namespace Crimping
{
    /// <summary>What is passed where a quantity is meant: a value, or text with a unit.</summary>
    /// <typeparam name="T">the quantity, or what text may stand for</typeparam>
    public struct Given<T>
    {
        internal readonly T Value;
        internal readonly string Text;
        internal readonly bool IsValue;

        private Given(T value, string text, bool isValue)
        {
            Value = value;
            Text = text;
            IsValue = isValue;
        }

        internal Given(T value)
            : this(value, null, value != null)
        {
        }

        internal bool IsThere
        {
            get { return IsValue || Text != null; }
        }

        /// <summary>A value.</summary>
        /// <param name="value">the value</param>
        public static implicit operator Given<T>(T value)
        {
            return new Given<T>(value);
        }

        /// <summary>Text with a unit, read where it is used.</summary>
        /// <param name="text">number and unit</param>
        public static implicit operator Given<T>(string text)
        {
            return new Given<T>(default(T), text, false);
        }
    }
}
