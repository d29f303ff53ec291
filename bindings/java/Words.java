// SPDX-License-Identifier: MIT
package ferrule;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;

/** How values travel to the library and back, see typed.h: a number of words, then the words. */
final class Words {
    private final long[] words;
    private int at = 1;

    /** The words that are to be passed. */
    Words(int count) {
        words = new long[count + 1];
        words[0] = count;
    }

    /** What came back; a failure is thrown. */
    Words(long[] result) {
        words = result;
        if (words[0] < 0) {
            int code = (int) take();
            String quantity = takeText();
            String name = takeText();
            String called = takeText();
            String function = camel(called);
            String path = takeText();
            String message = takeText();
            boolean isNamed = message.startsWith(called + ":");
            throw new FerruleException(code, quantity, name, function, path,
                isNamed ? function + message.substring(called.length()) : message);
        }
    }

    private static String camel(String name) {
        StringBuilder made = new StringBuilder();
        for (String part : name.split("_")) {
            made.append(made.length() == 0 ? part : part.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + part.substring(1));
        }
        return made.toString();
    }

    long[] words() {
        return words;
    }

    // ---- passing ----

    void put(long word) {
        words[at++] = word;
    }

    void putNumber(double number) {
        words[at++] = Double.doubleToRawLongBits(number);
    }

    void skip(int count) {
        at += count;
    }

    static long[] of(long word) {
        return new long[] {1, word};
    }

    static long[] of(int word) {
        return new long[] {1, word};
    }

    static long[] of(double number) {
        return new long[] {1, Double.doubleToRawLongBits(number)};
    }

    static long[] of(String text) {
        if (text == null) {
            return null;
        }
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        int count = bytes.length / 8 + 1; // C needs a zero byte behind it
        ByteBuffer buffer = ByteBuffer.allocate(count * 8).order(ByteOrder.nativeOrder());
        buffer.put(bytes).rewind();
        long[] words = new long[count + 1];
        words[0] = bytes.length;
        buffer.asLongBuffer().get(words, 1, count);
        return words;
    }

    /** A value that must not be null. */
    static <T> T given(T value, String kind, String function, String name) {
        if (value == null) {
            read(kind, function, name, null);
        }
        return value;
    }

    static <T> long[] list(Collection<T> values, Class<T> type, String kind, int size, BiConsumer<T, Words> write,
                           String function, String name) {
        if (values == null) {
            return null;
        }
        Object[] all = values.toArray();
        Words w = new Words(Math.multiplyExact(all.length, size));
        for (int i = 0; i < all.length; i++) {
            T one = type.cast(all[i]);
            write.accept(one == null ? given(one, kind, function, name + "[" + i + "]") : one, w);
        }
        return w.words;
    }

    /** A list of a fixed length, without null. */
    static <T> List<T> exactly(List<T> values, int count, String kind, String name) {
        List<T> copy = values == null ? List.of() : new ArrayList<>(values);
        if (values == null || copy.size() != count || copy.contains(null)) {
            throw new FerruleException(0, "Type", "", kind, name, kind + ": " + name + " has to be a list of " + count);
        }
        return Collections.unmodifiableList(copy);
    }

    static <E extends Enum<E>> Set<E> set(Set<E> values, Class<E> type, boolean mayLack, String kind, String name) {
        if (values == null ? !mayLack : new ArrayList<>(values).contains(null)) {
            throw new FerruleException(0, "Type", "", kind, name, kind + ": " + name + " has to be a set without null");
        }
        EnumSet<E> copy = EnumSet.noneOf(type);
        if (values != null) {
            copy.addAll(values);
        }
        return Collections.unmodifiableSet(copy);
    }

    // ---- taking ----

    long take() {
        return words[at++];
    }

    double takeNumber() {
        return Double.longBitsToDouble(words[at++]);
    }

    String takeText() {
        int bytes = (int) take();
        int count = (bytes + 7) / 8;
        ByteBuffer buffer = ByteBuffer.allocate(count * 8).order(ByteOrder.nativeOrder());
        buffer.asLongBuffer().put(words, at, count);
        at += count;
        return new String(buffer.array(), 0, bytes, StandardCharsets.UTF_8);
    }

    <T> List<T> takeList(int count, Function<Words, T> read) {
        List<T> list = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            list.add(read.apply(this));
        }
        return Collections.unmodifiableList(list);
    }

    <T> List<T> takeList(Function<Words, T> read) {
        return takeList((int) take(), read);
    }

    // ---- text and units ----

    /** Text as a value of a kind; what is wrong with it names function and argument. */
    static Words read(String kind, String function, String name, String text) {
        return new Words(NativeJNI.read(of(kind), of(function), of(name), of(text)));
    }

    /** Text of a quantity with its decimal sign. */
    static Words parse(String kind, String text, char decimal) {
        return new Words(NativeJNI.parse(of(kind), of(text), of(String.valueOf(decimal))));
    }

    static String written(String kind, long[] value, String form) {
        return new Words(NativeJNI.text(of(kind), value, of(form))).takeText();
    }

    static double number(String kind, long[] value, String unit) {
        return new Words(NativeJNI.number(of(kind), value, of(unit))).takeNumber();
    }

    static double divisor(double divisor, Quantity dividend) {
        if (divisor == 0) {
            String kind = dividend.getClass().getSimpleName();
            throw new FerruleException(0, "Type", "", kind, "", kind + ": divided by zero");
        }
        return divisor;
    }
}
