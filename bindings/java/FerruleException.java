// SPDX-License-Identifier: MIT
package ferrule;

/** A call that was refused. The message names function, value and rule. */
public final class FerruleException extends IllegalArgumentException {
    private static final long serialVersionUID = 1;

    private final int code;
    private final String quantity;
    private final String name;
    private final String function;
    private final String path;

    FerruleException(int code, String quantity, String name, String function, String path, String message) {
        super(message);
        this.code = code;
        this.quantity = quantity;
        this.name = name;
        this.function = function;
        this.path = path;
    }

    /**
     * The rule that was broken.
     *
     * @return a status of the library; null where a value is not of the kind that is needed, such as null itself
     */
    public Status status() {
        return code == 0 ? null : Status.of(code);
    }

    /**
     * The number of the status.
     *
     * @return the number; 0 where a value is not of the kind that is needed
     */
    public int code() {
        return code;
    }

    /**
     * The quantity at fault, which is the first word of the status.
     *
     * @return such as {@code "Stem"}; {@code "Type"} where a value is not of the kind that is needed
     */
    public String quantity() {
        return quantity;
    }

    /**
     * The name of the status.
     *
     * @return such as {@code "STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE"}; empty where a value is not of the kind that is needed
     */
    public String name() {
        return name;
    }

    /**
     * The function that was called, or the class that was to be made.
     *
     * @return its name
     */
    public String function() {
        return function;
    }

    /**
     * The field at fault: an argument, its member and so on, by their names in the manual.
     *
     * @return such as {@code "joint.hose.outside"}; empty where the fault is not in one field alone
     */
    public String path() {
        return path;
    }
}
