package clinic.stimshelf.web;

import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;

/**
 * What a person typed into a form, read field by field. What cannot be read becomes a reason and is
 * kept as typed, so that the page can show it again.
 */
public final class Form {
  private final MultivaluedMap<String, String> typed;
  private final List<Reason> reasons = new ArrayList<>();

  private Form(MultivaluedMap<String, String> typed) {
    this.typed = typed;
  }

  public static Form of(MultivaluedMap<String, String> typed) {
    return new Form(typed == null ? new MultivaluedHashMap<>() : typed);
  }

  /** A form nobody has typed into. */
  public static Form empty() {
    return new Form(new MultivaluedHashMap<>());
  }

  /** Fills a field in advance; what was typed stays. */
  public Form prefill(String name, Object value) {
    if (value != null && !typed.containsKey(name)) {
      typed.putSingle(name, value.toString());
    }
    return this;
  }

  /** What stands in the field, without surrounding blanks; empty if nothing. */
  public String value(String name) {
    String text = typed.getFirst(name);
    return text == null ? "" : text.strip();
  }

  /** Everything chosen under one name. */
  public List<String> values(String name) {
    return typed.getOrDefault(name, List.of()).stream().map(String::strip).toList();
  }

  /** The names of all fields that came along. */
  public java.util.Set<String> names() {
    return typed.keySet();
  }

  public boolean has(String name) {
    return !value(name).isEmpty();
  }

  /** Whether a box is ticked or a choice taken. */
  public boolean chosen(String name, String value) {
    return values(name).contains(value);
  }

  public boolean ticked(String name) {
    return has(name) && !"false".equals(value(name));
  }

  /** The field's text, or a reason against the form. */
  public String text(String name, String what, int most) {
    String text = optionalText(name, what, most);
    if (text == null) {
      wrong(name, what + " is missing.");
      return "";
    }
    return text;
  }

  /** The field's text or {@code null} if empty. */
  public String optionalText(String name, String what, int most) {
    String text = value(name);
    if (text.codePointCount(0, text.length()) > most) {
      wrong(name, what + " is too long: at most " + most + " characters.");
    }
    return text.isEmpty() ? null : text;
  }

  /** A whole number in the range, or a reason and {@code least}. */
  public int whole(String name, String what, int least, int most) {
    Integer number = optionalWhole(name, what, least, most);
    if (number == null) {
      if (!has(name)) {
        wrong(name, what + " is missing: a whole number from " + least + " to " + most + ".");
      }
      return least;
    }
    return number;
  }

  public Integer optionalWhole(String name, String what, int least, int most) {
    return read(
        name,
        Integer::valueOf,
        number -> number >= least && number <= most,
        what + " must be a whole number from " + least + " to " + most + ".");
  }

  public BigDecimal optionalNumber(String name, String what, BigDecimal least, BigDecimal most) {
    return read(
        name,
        BigDecimal::new,
        number -> number.compareTo(least) >= 0 && number.compareTo(most) <= 0,
        what
            + " must be a number from "
            + least.toPlainString()
            + " to "
            + most.toPlainString()
            + ".");
  }

  /** A day as browsers send it (year-month-day), or as people here write it (month/day/year). */
  public LocalDate optionalDay(String name, String what) {
    return read(name, Days::parse, Objects::nonNull, what + " must be a day such as 3/14/2026.");
  }

  public LocalDate day(String name, String what) {
    LocalDate day = optionalDay(name, what);
    if (day == null && !has(name)) {
      wrong(name, what + " is missing: a day such as 3/14/2026.");
    }
    return day;
  }

  public LocalTime optionalTime(String name, String what) {
    return read(name, LocalTime::parse, Objects::nonNull, what + " must be a time such as 14:30.");
  }

  public LocalDateTime optionalDayAndTime(String name, String what) {
    return read(
        name,
        LocalDateTime::parse,
        Objects::nonNull,
        what + " must be a day and time such as 2026-03-14T14:30.");
  }

  /** Reads a field by any rule that throws an IllegalArgumentException or DateTimeException. */
  public <T> T read(
      String name, Function<String, T> reader, java.util.function.Predicate<T> ok, String says) {
    if (!has(name)) {
      return null;
    }
    try {
      T read = reader.apply(value(name));
      if (ok.test(read)) {
        return read;
      }
    } catch (IllegalArgumentException | DateTimeException unreadable) {
      // the reason below says what is allowed
    }
    wrong(name, says);
    return null;
  }

  public void wrong(String name, String message) {
    reasons.add(new Reason(name, message, null));
  }

  /** Takes over a refusal, so that the page shows it beside what was typed. */
  public Form refused(Refusal refusal) {
    reasons.addAll(refusal.reasons());
    return this;
  }

  public boolean ok() {
    return reasons.isEmpty();
  }

  /**
   * @throws Refusal with everything that could not be read
   */
  public void throwIfWrong() {
    if (!ok()) {
      throw new Refusal(reasons);
    }
  }

  public List<Reason> reasons() {
    return List.copyOf(reasons);
  }

  /** What is wrong with the field, or {@code null}. */
  public String error(String name) {
    return reasons.stream()
        .filter(reason -> name.equals(reason.field()))
        .map(Reason::words)
        .findFirst()
        .orElse(null);
  }
}
