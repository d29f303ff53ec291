// SPDX-License-Identifier: MIT
namespace Crimping
{
    /// <summary>What all classes of values have: they are equal where all their members are, bit for bit.</summary>
    public abstract class Value
    {
        internal Value()
        {
        }

        internal abstract int WordCount { get; }

        internal abstract void Write(Words w);

        /// <summary>Equal where class and all members are the same.</summary>
        /// <param name="other">any object</param>
        /// <returns>whether it is the same</returns>
        public override bool Equals(object other)
        {
            if (other == null || other.GetType() != GetType())
                return false;
            long[] own = Words.Of(this, WordCount), others = Words.Of((Value)other, WordCount);
            for (int i = 0; i < own.Length; i++)
                if (own[i] != others[i])
                    return false;
            return true;
        }

        /// <summary>Hash of all members.</summary>
        /// <returns>the hash</returns>
        public override int GetHashCode()
        {
            long hash = 17;
            foreach (long word in Words.Of(this, WordCount))
                hash = unchecked(hash * 31 + word);
            return hash.GetHashCode();
        }

        /// <summary>Members and values.</summary>
        /// <returns>text</returns>
        public override string ToString()
        {
            return Words.Written(GetType().Name, Words.Of(this, WordCount), "");
        }
    }
}
