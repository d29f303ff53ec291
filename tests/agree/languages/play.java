// SPDX-License-Identifier: MIT
// The Java package as check_language.py asks: rows, bad, failing COUNT, speed COUNT, functions, own, odd ROUNDS.
import ferrule.*;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

final class Play {
    static final Joint JOINT = new Joint(new Hose("12.7 mm", "19.9 mm"), new Stem("12.95 mm"),
                                         new ferrule.Ferrule("2.4 mm").withOutside("25.6 mm"));
    static final Map<Class<?>, String> BASES = Map.of(Length.class, "mm", Area.class, "mm2", Force.class, "newton",
        Pressure.class, "mpa", Angle.class, "rad", Ratio.class, "fraction", Temperature.class, "celsius", PerLength.class, "perMm");

    public static void main(String[] given) throws Exception {
        switch (given[0]) {
            case "rows" -> rows();
            case "functions" -> functions();
            case "bad" -> bad();
            case "own" -> own();
            case "odd" -> odd(Integer.parseInt(given[1]));
            case "failing" -> failing(Integer.parseInt(given[1]));
            case "speed" -> speed(Integer.parseInt(given[1]));
            default -> throw new IllegalArgumentException(given[0]);
        }
    }

    static String camel(String name) {
        String[] parts = name.split("_");
        return parts[0] + Arrays.stream(parts).skip(1).map(p -> p.substring(0, 1).toUpperCase() + p.substring(1)).collect(Collectors.joining());
    }

    // ---- rows of the tables ----

    /** {@code a.b=1; l.0.c=2} as maps; places of lists are names of digits. */
    static Map<String, Object> nest(String text) {
        Map<String, Object> tree = new TreeMap<>();
        for (String item : text.isEmpty() ? new String[0] : text.split("; ")) {
            String[] sides = item.split("=", 2);
            String[] path = sides[0].split("\\.");
            Map<String, Object> node = tree;
            for (int i = 0; i < path.length - 1; i++) {
                node = asMap(node.computeIfAbsent(camel(path[i]), name -> new TreeMap<String, Object>()));
            }
            node.put(camel(path[path.length - 1]), sides[1]);
        }
        return tree;
    }

    @SuppressWarnings("unchecked")
    static Map<String, Object> asMap(Object node) {
        return (Map<String, Object>) node;
    }

    static Object make(Type type, Object node) throws Exception {
        if (type instanceof ParameterizedType set && set.getRawType() == Set.class) {
            Set<Object> chosen = new LinkedHashSet<>();
            for (String word : node == null ? new String[0] : ((String) node).split(", ")) {
                chosen.add(make(set.getActualTypeArguments()[0], word));
            }
            return chosen;
        }
        if (type instanceof ParameterizedType list) {
            Map<String, Object> items = node == null ? Map.of() : asMap(node);
            List<Object> made = new ArrayList<>();
            for (int i = 0; i < items.size(); i++) {
                made.add(make(list.getActualTypeArguments()[0], items.get(Integer.toString(i))));
            }
            return made;
        }
        Class<?> kind = (Class<?>) type;
        if (kind == int.class || kind == long.class) {
            long whole = node == null ? 0 : ((String) node).startsWith("-") ? Long.parseLong((String) node) : Long.parseUnsignedLong((String) node);
            return kind == int.class ? (Object) (int) whole : (Object) whole;
        }
        if (kind == double.class || kind == boolean.class) {
            return kind == double.class ? (Object) (node == null ? 0 : Double.parseDouble((String) node)) : (Object) "true".equals(node);
        }
        if (node == null) {
            return null;
        }
        if (kind.isEnum()) {
            return kind.getMethod("valueOf", String.class).invoke(null, ((String) node).toUpperCase().replace(' ', '_'));
        }
        return node instanceof String ? kind.getMethod("of", String.class).invoke(null, node) : makeRecord(kind, asMap(node));
    }

    static Object makeRecord(Class<?> kind, Map<String, Object> node) throws Exception {
        RecordComponent[] members = kind.getRecordComponents();
        Object[] values = new Object[members.length];
        for (int i = 0; i < members.length; i++) {
            values[i] = make(members[i].getGenericType(), node.get(members[i].getName()));
        }
        return constructor(kind).newInstance(values);
    }

    static Constructor<?> constructor(Class<?> kind) throws Exception {
        return kind.getConstructor(Arrays.stream(kind.getRecordComponents()).map(RecordComponent::getType).toArray(Class<?>[]::new));
    }

    /** The one of a name that takes everything, and no text for quantities. */
    static Method method(String name) {
        return Arrays.stream(Crimp.class.getMethods()).filter(m -> m.getName().equals(name))
            .filter(m -> !List.of(m.getParameterTypes()).contains(String.class))
            .max((a, b) -> a.getParameterCount() - b.getParameterCount()).orElseThrow();
    }

    static Object said(Object value) throws Exception {
        if (value instanceof Quantity) {
            double number = (double) value.getClass().getMethod(BASES.get(value.getClass())).invoke(value);
            return String.format("%016x", Double.doubleToRawLongBits(number));
        }
        if (value instanceof Double number) {
            return String.format("%016x", Double.doubleToRawLongBits(number));
        }
        if (value instanceof Collection<?> set) {
            return set.stream().map(Object::toString).collect(Collectors.joining(", "));
        }
        return value instanceof Boolean truth ? (truth ? 1 : 0) : value;
    }

    static Object figure(Method method, Object result, String path) throws Exception {
        String[] names = path.split("\\.");
        Object value = result;
        boolean isOneOfMany = method.getReturnType().getSimpleName().endsWith("Results");
        for (int i = isOneOfMany ? 0 : 1; i < names.length; i++) {
            value = value.getClass().getMethod(camel(names[i])).invoke(value);
        }
        return value;
    }

    static Object call(Method method, Map<String, Object> tree, Object setup) throws Exception {
        Object[] values = new Object[method.getParameterCount()];
        for (int i = 0; i < values.length; i++) {
            Type type = method.getGenericParameterTypes()[i];
            Object node = tree.get(method.getParameters()[i].getName());
            // what is not named is 0, also where all members are
            values[i] = setup != null && type == setup.getClass() ? setup
                : make(type, node == null && type instanceof Class<?> c && c.isRecord() && canBeEmpty(c) ? Map.of() : node);
        }
        return method.invoke(null, values);
    }

    /** With two calls in a line the second one's set-up is what the first one gives. */
    static void rows() throws Exception {
        BufferedReader in = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        StringBuilder out = new StringBuilder();
        for (String line = in.readLine(); line != null; line = in.readLine()) {
            String[] cells = line.split("\t");
            Method method = method(camel(cells[0]));
            try {
                Object setup = cells.length > 3 ? call(method(camel(cells[3])), nest(cells[4]), null) : null;
                out.append(said(figure(method, call(method, nest(cells[1]), setup), cells[2])));
            } catch (InvocationTargetException thrown) {
                out.append("status ").append(((FerruleException) thrown.getCause()).name());
            }
            out.append('\n');
        }
        System.out.print(out);
    }

    static boolean canBeEmpty(Class<?> kind) {
        return Arrays.stream(kind.getConstructors()).anyMatch(c -> c.getParameterCount() == 0);
    }

    static void functions() {
        Set<String> names = Arrays.stream(Crimp.class.getMethods()).filter(m -> m.getDeclaringClass() == Crimp.class)
            .map(Method::getName).collect(Collectors.toSet());
        for (Class<?> quantity : BASES.keySet()) {
            Arrays.stream(quantity.getMethods())
                .filter(m -> Modifier.isStatic(m.getModifiers()) && Arrays.equals(m.getParameterTypes(), new Class<?>[] {double.class}))
                .forEach(m -> names.add(m.getName()));
        }
        names.forEach(System.out::println);
    }

    // ---- what must not pass ----

    static Map<String, Runnable> wrong() {
        Map<String, Runnable> calls = new LinkedHashMap<>();
        calls.put("missing_unit", () -> Crimp.crimpDiameter(JOINT, "20"));
        calls.put("other_kind_text", () -> Crimp.crimpDiameter(JOINT, "12.7 mm"));
        calls.put("nan", () -> Crimp.crimpDiameter(JOINT, Ratio.fraction(Double.NaN)));
        calls.put("empty_list", () -> Crimp.summariseReadings(List.of(), new Gauge()));
        calls.put("empty_text", () -> Crimp.crimpDiameter(JOINT, ""));
        calls.put("long_text", () -> Crimp.crimpDiameter(JOINT, " ".repeat(2000)));
        calls.put("zero_byte", () -> Crimp.crimpDiameter(JOINT, "20 \0%"));
        calls.put("bad_item", () -> Crimp.chooseDie(Die.listOf("16 mm", "19"), "3 mm"));
        calls.put("rule", () -> Crimp.crimpDiameter(JOINT.withStem("19.9 mm"), "20 %"));
        calls.put("null_struct", () -> Crimp.crimpDiameter(null, "20 %"));
        calls.put("null_quantity", () -> Crimp.crimpDiameter(JOINT, (Ratio) null));
        calls.put("null_text", () -> Crimp.crimpDiameter(JOINT, (String) null));
        calls.put("null_list", () -> Crimp.chooseDie(null, "3 mm"));
        calls.put("null_item", () -> Crimp.chooseDie(Arrays.asList(Die.of("16 mm"), null), "3 mm"));
        calls.put("null_member", () -> new Hose(Length.mm(1), (Length) null));
        calls.put("null_word", () -> Crimp.causeName(null));
        calls.put("second_list", () -> Crimp.choosePurchases(Die.listOf("16 mm"), List.of(Length.mm(9)), Arrays.asList(Die.of("9 mm"), null)));
        calls.put("other_length", () -> new RandomWords(List.of(1L, 2L, 3L)));
        calls.put("too_large", () -> Crimp.findRandomWords(new RandomWords(List.of(0L, 0L, 1L << 32, 0L)), 1));
        calls.put("divided_by_zero", () -> Length.mm(3).dividedBy(0));
        return calls;
    }

    static void bad() {
        wrong().forEach((name, call) -> {
            try {
                call.run();
                throw new IllegalStateException(name + " passed");
            } catch (FerruleException e) {
                if (e.code() != (e.status() == null ? 0 : e.status().number()) || !e.name().equals(e.status() == null ? "" : e.status().name())) {
                    throw new IllegalStateException(name + ": status and code differ");
                }
                System.out.println(String.join("\t", name, e.quantity(), e.name(), e.function(), e.path(), e.getMessage()));
            }
        });
    }

    static void failOften(int count) {
        List<Runnable> calls = new ArrayList<>(wrong().values());
        for (int i = 0; i < count; i++) {
            try {
                calls.get(i % calls.size()).run();
            } catch (FerruleException expected) {
                continue;
            }
        }
    }

    /** Memory of the process in kB, after the collector has been. */
    static long memory() throws Exception {
        System.gc();
        return Files.readAllLines(Path.of("/proc/self/status")).stream().filter(line -> line.startsWith("VmRSS"))
            .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", ""))).findFirst().orElseThrow();
    }

    static void failing(int count) throws Exception {
        for (int i = 0; i < 3; i++) { // until everything is compiled and the heap has its size
            failOften(count);
            memory();
        }
        long before = memory();
        failOften(count);
        System.out.println(before + " " + memory());
    }

    static void speed(int count) {
        Ratio share = Ratio.percent(20);
        for (int i = 0; i < count; i++) {
            Crimp.crimpDiameter(JOINT, share);
        }
        long start = System.nanoTime();
        for (int i = 0; i < count; i++) {
            Crimp.crimpDiameter(JOINT, share);
        }
        System.out.println(count / ((System.nanoTime() - start) / 1e9));
    }

    // ---- whatever is passed, it returns or throws an exception of ours ----

    static final double[] NUMBERS = {0, -0.0, 1, -1, 0.2, 20, 25.4, 1e-300, 1e300, Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
    static final long[] WHOLE = {0, 1, -1, 8, 255, 1L << 31, 1L << 32, Long.MAX_VALUE, Long.MIN_VALUE};
    static final String[] TEXTS = {null, "", "1 mm", "20 %", "20", "\0", "\u00b5", "5 \u00b5m", "\ud800", "x".repeat(5000), "nan mm", "1e999 mm"};

    static Object any(Type type, Random random, int depth) throws Exception {
        if (type instanceof ParameterizedType list) {
            if (list.getRawType() == Set.class) {
                return random.nextInt(5) == 0 ? null : Set.of();
            }
            List<Object> made = new ArrayList<>();
            for (int i = random.nextInt(5); i > 0; i--) {
                made.add(any(list.getActualTypeArguments()[0], random, depth + 1));
            }
            return random.nextInt(20) == 0 ? null : made;
        }
        Class<?> kind = (Class<?>) type;
        if (kind == int.class || kind == Integer.class) {
            return (int) WHOLE[random.nextInt(WHOLE.length)];
        }
        if (kind == long.class || kind == Long.class) {
            return WHOLE[random.nextInt(WHOLE.length)];
        }
        if (kind == double.class) {
            return NUMBERS[random.nextInt(NUMBERS.length)];
        }
        if (kind == boolean.class) {
            return random.nextBoolean();
        }
        if (kind == String.class) {
            return TEXTS[random.nextInt(TEXTS.length)];
        }
        if (random.nextInt(20) == 0) {
            return null;
        }
        if (kind.isEnum()) {
            return kind.getEnumConstants()[random.nextInt(kind.getEnumConstants().length)];
        }
        if (Quantity.class.isAssignableFrom(kind)) {
            return kind.getMethod(BASES.get(kind), double.class).invoke(null, NUMBERS[random.nextInt(NUMBERS.length)]);
        }
        RecordComponent[] members = kind.getRecordComponents();
        Object[] values = new Object[members.length];
        for (int i = 0; i < members.length; i++) {
            values[i] = any(members[i].getGenericType(), random, depth + 1);
        }
        return constructor(kind).newInstance(values);
    }

    static void odd(int rounds) throws Exception {
        Random random = new Random(8);
        int returned = 0;
        for (Method method : Crimp.class.getMethods()) {
            if (method.getDeclaringClass() != Crimp.class || method.getName().matches("simulate.*|drawJoint")) {
                continue; // these may run for as long as they are asked to
            }
            for (int i = 0; i < rounds; i++) {
                try {
                    Object[] values = new Object[method.getParameterCount()];
                    for (int k = 0; k < values.length; k++) {
                        values[k] = any(method.getGenericParameterTypes()[k], random, 0);
                    }
                    Object result = method.invoke(null, values);
                    returned++;
                    String.valueOf(result);
                } catch (InvocationTargetException thrown) {
                    if (!(thrown.getCause() instanceof FerruleException)) {
                        throw thrown;
                    }
                }
            }
        }
        System.out.println(returned + " returned");
    }

    // ---- what is Java's own ----

    static void check(boolean truth) {
        if (!truth) {
            throw new IllegalStateException("not so, at line " + Thread.currentThread().getStackTrace()[2].getLineNumber());
        }
    }

    static void own() throws Exception {
        Length three = Length.mm(3);
        check(Length.mm(25.4).equals(Length.inch(1)) && three.compareTo(Length.inch(1)) < 0 && !three.equals(Pressure.mpa(3)));
        check(three.plus(Length.inch(1)).mm() == 28.4 && three.minus(Length.mm(4)).mm() == -1 && three.negated().abs().equals(three));
        check(three.dividedBy(Length.mm(2)).percent() == 150 && three.times(2).mm() == 6 && three.times(Ratio.percent(50)).mm() == 1.5);
        check(three.dividedBy(Ratio.percent(50)).mm() == 6 && three.dividedBy(2).mm() == 1.5 && three.hashCode() == Length.mm(3).hashCode());
        check(Length.of("12.7 mm").toString().equals("12.7 mm") && Length.inch(1.25).format(".2f mm").equals("31.75 mm"));
        check(Length.of("12,7 mm", ',').mm() == 12.7 && Length.of("1\u00bd IN", '.').mm() == 38.1 && Length.of("5 mils").thou() == 5);
        check(Length.inch(1.25).format(".1/64 in").equals("1 1/4 in"));
        checkSign(() -> Length.of("1.234 mm", ','), "TEXT_POINT");
        checkSign(() -> Length.of("12,7 mm"), "TEXT_COMMA");
        checkSign(() -> Length.of("12,7 mm", ';'), "");
        check(Length.of("5 \u00b5m").mm() == 0.005 && Length.micrometre(5).format("micrometre").equals("5 \u00b5m"));
        check(Temperature.celsius(20).fahrenheit() == 68 && Length.mm(1).inch() == 1 / 25.4);
        check(JOINT.withStem("13 mm").stem().outside().equals(Length.mm(13)) && JOINT.stem().outside().mm() == 12.95);
        check(JOINT.toString().equals("Joint{hose: {inside: 12.7 mm, outside: 19.9 mm}, stem: {outside: 12.95 mm}, "
                                      + "ferrule: {wall: 2.4 mm, outside: 25.6 mm}}"));
        check(new Stem("13 mm").equals(Stem.of("13 mm")) && new Hose("1 mm", "2 mm").reinforcement().mm() == 0);
        Setup setup = Crimp.planSetup(new Order(JOINT).withWidest("38 mm"), new Press().withGraduation("0.05 mm"), Die.listOf("16 mm", "22 mm"));
        check(setup.uncertainty().value() == null && !setup.uncertainty().isFound() && setup.window().isFound());
        check(setup.equals(setup.withSegments(setup.segments())) && setup.hashCode() == setup.withSegments(setup.segments()).hashCode());
        List<Trial> trials = List.of(new Trial("1.51 mm", "23.61 mm")); // 0.10 mm too large at 1.51: 1.41
        Adjustment corrected = Crimp.correctDial(new DialScale(), trials, "23.51 mm");
        check(corrected.setting().format(".2f mm").equals("1.41 mm"));
        check(corrected.equals(Crimp.correctDial(new DialScale(), trials, "23.51 mm", new LengthRange("0 mm", "0 mm"))));
        check(!setup.remarks().isEmpty() && setup.remarks().iterator().next().sentence().length() > 10);
        check(Crimp.LENGTH_MAXIMUM.equals(Length.metre(1000)) && Crimp.TALLY_CLASSES == 512);
        check(Basis.FITTED_WALL.number() == 1 && Status.OK.sentence().equals("no error"));
        checkRefused(() -> setup.remarks().clear());
        checkRefused(() -> new RandomWords(new ArrayList<>(List.of(1L, 2L, 3L, 4L))).word().set(0, 2L));
        checkWholeNumbers();
        checkThreads(setup);
    }

    static void checkSign(Runnable reading, String name) {
        try {
            reading.run();
        } catch (FerruleException failure) {
            check(failure.name().equals(name) && failure.function().equals("Length"));
            return;
        }
        check(false);
    }

    static void checkRefused(Runnable change) {
        try {
            change.run();
        } catch (UnsupportedOperationException expected) {
            return;
        }
        throw new IllegalStateException("a value was changed");
    }

    static void checkWholeNumbers() {
        // Known answer, test vectors of Salmon, Moraes, Dror, Shaw, SC11 (2011).
        RandomWords words = Crimp.findRandomWords(new RandomWords(Collections.nCopies(4, 0xffffffffL)), -1);
        check(words.word().equals(List.of(0x408f276dL, 0x41c83b0eL, 0xa20bc7c6L, 0x6d5451fdL)));
    }

    /** Eight threads, each with its own figures and failures, get what one alone gets. */
    static void checkThreads(Setup setup) throws Exception {
        List<Thread> threads = new ArrayList<>();
        List<Throwable> failures = Collections.synchronizedList(new ArrayList<>());
        for (int i = 0; i < 8; i++) {
            Ratio share = Ratio.percent(10 + i);
            double expected = Crimp.crimpDiameter(JOINT, share).mm();
            String text = (10 + i) + " bar";
            Thread thread = new Thread(() -> {
                for (int k = 0; k < 3000; k++) {
                    check(Crimp.crimpDiameter(JOINT, share).mm() == expected);
                    try {
                        Crimp.crimpDiameter(JOINT, text);
                        throw new IllegalStateException(text + " passed");
                    } catch (FerruleException e) {
                        check(e.getMessage().contains(text));
                    }
                }
            });
            thread.setUncaughtExceptionHandler((one, failure) -> failures.add(failure));
            threads.add(thread);
            thread.start();
        }
        for (Thread thread : threads) {
            thread.join();
        }
        check(failures.isEmpty());
    }
}
