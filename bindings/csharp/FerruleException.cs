// SPDX-License-Identifier: MIT
using System;

namespace Crimping
{
    /// <summary>A call that was refused. The message names function, value and rule.</summary>
    public sealed class FerruleException : ArgumentException
    {
        internal FerruleException(int code, string quantity, string name, string function, string path, string message)
            : base(message)
        {
            Code = code;
            Quantity = quantity;
            Name = name;
            Function = function;
            Path = path;
        }

        /// <summary>The number of the status; 0 where a value is not of the kind that is needed, such as null.</summary>
        public int Code { get; private set; }

        /// <summary>The rule that was broken; null where a value is not of the kind that is needed.</summary>
        public Status? Status
        {
            get { return Code == 0 ? (Status?)null : (Status)Code; }
        }

        /// <summary>The quantity at fault, the first word of the status, such as "Stem"; "Type" where a value is not of
        /// the kind that is needed.</summary>
        public string Quantity { get; private set; }

        /// <summary>The name of the status as in the manual; empty where there is none.</summary>
        public string Name { get; private set; }

        /// <summary>The function that was called, or the class that was to be made.</summary>
        public string Function { get; private set; }

        /// <summary>The field at fault by the names in the manual, such as "joint.hose.outside"; empty where the fault is not
        /// in one field alone.</summary>
        public string Path { get; private set; }
    }
}
