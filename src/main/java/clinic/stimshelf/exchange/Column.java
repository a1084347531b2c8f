package clinic.stimshelf.exchange;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * A column of a file: what it may hold and how that becomes a value.
 *
 * @param <T> the value's type
 */
final class Column<T> {
  private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm");

  private final String name;
  private final boolean required;
  private final String allowed;
  private final boolean list;
  private final BiFunction<String, Row, T> reader;

  private Column(
      String name,
      boolean required,
      String allowed,
      boolean list,
      BiFunction<String, Row, T> reader) {
    this.name = name;
    this.required = required;
    this.allowed = allowed;
    this.list = list;
    this.reader = reader;
  }

  private static <T> Column<T> of(String name, String allowed, BiFunction<String, Row, T> reader) {
    return new Column<>(name, false, allowed, false, reader);
  }

  /** The same column, in which something must stand. */
  Column<T> required() {
    return new Column<>(name, true, allowed, list, reader);
  }

  String name() {
    return name;
  }

  boolean isRequired() {
    return required;
  }

  /** What is allowed, in words that follow "allowed is". */
  String allowed() {
    return allowed;
  }

  /**
   * @throws RuntimeException if the text is not allowed; {@link NotAllowed} says more than {@link
   *     #allowed()}
   */
  T read(String text, Row row) {
    return reader.apply(text, row);
  }

  /** A value that is refused for a reason of its own. */
  static final class NotAllowed extends RuntimeException {
    NotAllowed(String says) {
      super(says);
    }
  }

  /** What a demo tells of a time that is still to come. */
  static final class StillToCome extends RuntimeException {
    StillToCome() {
      super(null, null, false, false);
    }
  }

  static Column<String> text(String name, int most) {
    return of(
        name,
        "a text of at most " + most + " characters",
        (text, row) -> text.codePointCount(0, text.length()) <= most ? text : none());
  }

  /** What names a row for good, so that a second import of the file changes nothing. */
  static Column<String> ref() {
    return of(
            "ref",
            "1 to 64 letters, digits, dots, dashes, colons or _, each only once",
            (text, row) -> text.matches("[A-Za-z0-9._:-]{1,64}") ? text : none())
        .required();
  }

  /** A code or tag of our own: letters, digits, dots, dashes, underscores. */
  static Column<String> code(String name) {
    return of(
        name,
        "1 to 32 letters, digits, dots, dashes or _",
        (text, row) -> text.matches("[A-Za-z0-9._-]{1,32}") ? text : none());
  }

  static Column<Integer> whole(String name, int least, int most) {
    return of(
        name,
        "a whole number from " + least + " to " + most,
        (text, row) -> {
          int number = Integer.parseInt(text);
          return number >= least && number <= most ? number : none();
        });
  }

  static Column<BigDecimal> number(String name, String least, String most) {
    BigDecimal low = new BigDecimal(least);
    BigDecimal high = new BigDecimal(most);
    return of(
        name,
        "a number from " + least + " to " + most + ", with a point before decimals",
        (text, row) -> {
          BigDecimal number = new BigDecimal(text);
          return number.compareTo(low) >= 0 && number.compareTo(high) <= 0 ? number : none();
        });
  }

  static Column<Boolean> yesNo(String name) {
    return of(
        name,
        "yes or no",
        (text, row) ->
            switch (text.toLowerCase(Locale.ROOT)) {
              case "yes", "true" -> true;
              case "no", "false" -> false;
              default -> none();
            });
  }

  /** One of some words; {@code values} are constants, whose names become words with dashes. */
  static <E extends Enum<E>> Column<E> word(String name, Class<E> values) {
    List<E> all = Arrays.asList(values.getEnumConstants());
    return of(
        name,
        "one of " + all.stream().map(Column::wordOf).collect(Collectors.joining(", ")),
        (text, row) ->
            all.stream()
                .filter(value -> wordOf(value).equalsIgnoreCase(text))
                .findFirst()
                .orElseGet(Column::none));
  }

  static Column<String> word(String name, List<String> words) {
    return of(
        name,
        "one of " + String.join(", ", words),
        (text, row) ->
            words.stream().filter(text::equalsIgnoreCase).findFirst().orElseGet(Column::none));
  }

  static String wordOf(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A calendar day, open or not. */
  static Column<LocalDate> day(String name) {
    return of(name, DayText.DAY, (text, row) -> row.days().day(text));
  }

  /** A day on which the location is open; only a demo's relative days are moved to one. */
  static Column<LocalDate> openDay(String name) {
    return of(name, DayText.DAY, (text, row) -> row.days().openDay(text, row.hours()));
  }

  static Column<LocalTime> time(String name) {
    return of(name, "a time such as 14:30 or 2:30 PM", (text, row) -> DayText.time(text));
  }

  /** A day and time at the location. */
  static Column<Instant> moment(String name) {
    return of(
        name, DayText.MOMENT, (text, row) -> row.days().moment(text, row.hours(), row.zone()));
  }

  /** A day and time at the location, open or not. */
  static Column<Instant> anyMoment(String name) {
    return of(name, DayText.MOMENT, (text, row) -> row.days().moment(text, null, row.zone()));
  }

  /**
   * A day and time that lies behind us. A demo's relative time that is still to come reads as if
   * nothing stood there: it has not happened yet.
   */
  static Column<Instant> happened(String name) {
    return past(name, Column.moment(name));
  }

  /** The same, whether the location was open or not. */
  static Column<Instant> happenedAnyTime(String name) {
    return past(name, Column.anyMoment(name));
  }

  private static Column<Instant> past(String name, Column<Instant> moment) {
    return of(
        name,
        DayText.MOMENT + ", not in the future",
        (text, row) -> behindUs(text, moment.read(text, row), at -> at.isAfter(row.days().now())));
  }

  /** A day that is not after today; of the demo's days those still to come read as nothing. */
  static Column<LocalDate> happenedDay(String name) {
    return of(
        name,
        DayText.DAY + ", not in the future",
        (text, row) ->
            behindUs(
                text,
                row.days().day(text),
                day -> day.isAfter(LocalDate.ofInstant(row.days().now(), row.zone()))));
  }

  private static <T> T behindUs(String text, T value, Predicate<T> ahead) {
    if (!ahead.test(value)) {
      return value;
    }
    if (DayText.isRelative(text)) {
      throw new StillToCome();
    }
    throw new NotAllowed("This lies in the future; allowed is what has already happened.");
  }

  /** The key of something that is already here, or that an earlier file brings. */
  static Column<Long> key(String name, Key of) {
    return of(
        name,
        of.allowed(),
        (text, row) -> {
          Keys.Found found = row.keys().find(of, text);
          if (found != null && row.reading().mayEnterAt(found.locationId())) {
            return found.id();
          }
          if (row.keys().isToCome(of, text)) {
            throw new StillToCome();
          }
          throw new NotAllowed(
              "There is no "
                  + of.noun()
                  + " “"
                  + text
                  + "” here; allowed is "
                  + of.allowed()
                  + ".");
        });
  }

  /** Several values, parted by |. */
  static <T> Column<List<T>> list(String name, String allowed, Function<String, T> each) {
    return listIn(name, allowed, (text, row) -> each.apply(text));
  }

  /** Several values that need the row to be read, parted by |. */
  static <T> Column<List<T>> listIn(String name, String allowed, BiFunction<String, Row, T> each) {
    return new Column<>(
        name,
        false,
        allowed + "; several are parted by |",
        true,
        (text, row) ->
            Arrays.stream(text.split("\\|"))
                .map(String::strip)
                .filter(part -> !part.isEmpty())
                .map(part -> each.apply(part, row))
                .toList());
  }

  /** Several keys, parted by |. */
  static Column<List<Long>> keys(String name, Key of) {
    Column<Long> one = key(name, of);
    return listIn(name, of.allowed(), one::read);
  }

  /** Reads by any rule that throws where the text is not allowed. */
  static <T> Column<T> by(String name, String allowed, BiFunction<String, Row, T> reader) {
    return of(name, allowed, reader);
  }

  static String write(LocalTime time) {
    return CLOCK.format(time);
  }

  private static <T> T none() {
    throw new IllegalArgumentException();
  }
}
