// SPDX-License-Identifier: MIT
package ferrule;

/** A number that carries its unit. It does not change, and is equal to the same number of the same kind. */
public abstract class Quantity {
    final double base;

    Quantity(double base) {
        this.base = base;
    }

    abstract long[] words();

    double in(String unit) {
        return Words.number(getClass().getSimpleName(), words(), unit);
    }

    /**
     * Text with decimals and unit, each of which may be left out.
     *
     * @param form such as {@code ".2f in"}
     * @return number and unit
     */
    public final String format(String form) {
        return Words.written(getClass().getSimpleName(), words(), form);
    }

    /**
     * The shortest text that reads back as the same value.
     *
     * @return number and unit
     */
    @Override
    public final String toString() {
        return format("");
    }

    @Override
    public final boolean equals(Object other) {
        return other != null && other.getClass() == getClass() && Double.compare(base, ((Quantity) other).base) == 0;
    }

    @Override
    public final int hashCode() {
        return 31 * getClass().hashCode() + Double.hashCode(base);
    }
}
