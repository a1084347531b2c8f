package clinic.stimshelf.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.Component;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

/** What is written is RFC 5545, and iCal4j reads back what was meant. */
class CalendarTextTest {
  private static final Instant NINE = Instant.parse("2026-03-04T14:00:00Z");

  /**
   * RFC 5545, 3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break".
   */
  @Test
  void longLinesAreFoldedAt75OctetsWithoutTearingACharacter() {
    assertThat(lines(event("a".repeat(67), null))).contains("SUMMARY:" + "a".repeat(67));
    assertThat(lines(event("x", "a".repeat(64))))
        .containsSequence("DESCRIPTION:" + "a".repeat(63), " a");
    assertThat(lines(event("a".repeat(66) + "éb", null)))
        .containsSequence("SUMMARY:" + "a".repeat(66), " éb");
    for (String line : lines(event("🦵é".repeat(80), "漢".repeat(90)))) {
      assertThat(line.getBytes(StandardCharsets.UTF_8).length).isLessThanOrEqualTo(75);
    }
  }

  /** RFC 5545, 3.3.11: backslash, semicolon, comma and line break are escaped, a colon is not. */
  @Test
  void textIsEscaped() {
    assertThat(lines(event("Bay 1; left, \\ 8:00\nsecond", null)))
        .contains("SUMMARY:Bay 1\\; left\\, \\\\ 8:00\\nsecond");
  }

  @Test
  void anotherProgramReadsTimesDaysAndStates() throws Exception {
    CalendarText.Event day =
        new CalendarText.Event(
            CalendarText.uid("loan", 7L, NINE),
            3,
            NINE,
            null,
            null,
            LocalDate.of(2026, 3, 9),
            "Return day",
            "Larkspur Rehab, Harbor Street",
            null,
            true);
    Calendar read = read(CalendarText.of("Appointments AL", List.of(event("AL", null), day)));
    assertThat(read.validate().hasErrors()).isFalse();
    List<? extends Component> events = read.getComponents(Component.VEVENT);
    assertThat(value(events.get(0), "DTSTART")).isEqualTo("20260304T140000Z");
    assertThat(value(events.get(0), "DTEND")).isEqualTo("20260304T144500Z");
    assertThat(value(events.get(0), "STATUS")).isEqualTo("CONFIRMED");
    assertThat(value(events.get(1), "DTSTART")).isEqualTo("20260309");
    assertThat(value(events.get(1), "SEQUENCE")).isEqualTo("3");
    assertThat(value(events.get(1), "STATUS")).isEqualTo("CANCELLED");
    assertThat(value(events.get(1), "LOCATION")).isEqualTo("Larkspur Rehab, Harbor Street");
  }

  @Test
  void anIdentifierIsOneOfItsThingAndStays() {
    assertThat(CalendarText.uid("loan", 7L, NINE))
        .isEqualTo(CalendarText.uid("loan", 7L, NINE))
        .isNotEqualTo(CalendarText.uid("appointment", 7L, NINE))
        .isNotEqualTo(CalendarText.uid("loan", 8L, NINE))
        .isNotEqualTo(CalendarText.uid("loan", 7L, NINE.plusMillis(1)))
        .matches("[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
  }

  @Property(tries = 200)
  void anyTextIsReadBackAsItWas(@ForAll("texts") String text) throws Exception {
    Calendar read = read(CalendarText.of("n", List.of(event(text, text))));
    Component event = read.getComponents(Component.VEVENT).get(0);
    assertThat(value(event, "SUMMARY")).isEqualTo(text);
    assertThat(value(event, "DESCRIPTION")).isEqualTo(text);
  }

  /**
   * Without backslashes: iCal4j 4.4.0 reads an escaped one before an escaped line break wrongly.
   */
  @Provide
  Arbitrary<String> texts() {
    return Arbitraries.of("a", "é", "漢", "🦵", ",", ";", "\n", ":", "\"", " ", "n", "=")
        .list()
        .ofMinSize(1)
        .ofMaxSize(200)
        .map(parts -> "(" + String.join("", parts) + ")");
  }

  private static CalendarText.Event event(String summary, String words) {
    return new CalendarText.Event(
        CalendarText.uid("appointment", 1L, NINE),
        0,
        NINE,
        NINE,
        NINE.plusSeconds(2_700),
        null,
        summary,
        null,
        words,
        false);
  }

  private static List<String> lines(CalendarText.Event event) {
    String text = CalendarText.of("n", List.of(event));
    assertThat(text).endsWith("END:VCALENDAR\r\n").doesNotContainPattern("[^\r]\n");
    return List.of(text.split("\r\n"));
  }

  private static Calendar read(String text) throws Exception {
    return new CalendarBuilder().build(new StringReader(text));
  }

  private static String value(Component event, String name) {
    return event.getProperty(name).orElseThrow().getValue();
  }
}
