package clinic.stimshelf.calc.days;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The other span walks past 10 to 20 from completely before to completely after. */
class SpanTest {

  private static final Span<Integer> TEN_TO_TWENTY = Span.of(10, 20);

  @ParameterizedTest
  @CsvSource({
    "1, 9, false, false, false, false",
    "1, 10, false, true, false, false",
    "1, 11, true, false, false, false",
    "1, 20, true, false, false, true",
    "1, 30, true, false, false, true",
    "10, 11, true, false, true, false",
    "10, 20, true, false, true, true",
    "10, 30, true, false, false, true",
    "12, 18, true, false, true, false",
    "19, 20, true, false, true, false",
    "19, 30, true, false, false, false",
    "20, 30, false, true, false, false",
    "21, 30, false, false, false, false"
  })
  void walk(
      int start, int end, boolean overlaps, boolean abuts, boolean enclosed, boolean encloses) {
    Span<Integer> other = Span.of(start, end);
    assertThat(TEN_TO_TWENTY.overlaps(other)).isEqualTo(overlaps);
    assertThat(other.overlaps(TEN_TO_TWENTY)).isEqualTo(overlaps);
    assertThat(TEN_TO_TWENTY.abuts(other)).isEqualTo(abuts);
    assertThat(other.abuts(TEN_TO_TWENTY)).isEqualTo(abuts);
    assertThat(TEN_TO_TWENTY.isConnected(other)).isEqualTo(overlaps || abuts);
    assertThat(TEN_TO_TWENTY.encloses(other)).isEqualTo(enclosed);
    assertThat(other.encloses(TEN_TO_TWENTY)).isEqualTo(encloses);
    assertThat(TEN_TO_TWENTY.isAfter(other)).isEqualTo(end <= 10);
    assertThat(TEN_TO_TWENTY.isBefore(other)).isEqualTo(start >= 20);
    assertThat(TEN_TO_TWENTY.intersection(other).isPresent()).isEqualTo(overlaps);
    assertThat(TEN_TO_TWENTY.gap(other).isPresent()).isEqualTo(!overlaps && !abuts);
    assertThat(TEN_TO_TWENTY.gap(other)).isEqualTo(other.gap(TEN_TO_TWENTY));
    assertThat(TEN_TO_TWENTY.hull(other).encloses(other)).isTrue();
    for (int point = 0; point < 32; point++) {
      boolean inBoth = TEN_TO_TWENTY.contains(point) && other.contains(point);
      int at = point;
      assertThat(TEN_TO_TWENTY.intersection(other).filter(s -> s.contains(at)).isPresent())
          .isEqualTo(inBoth);
    }
  }

  @Test
  void theStartBelongsToItAndTheEndDoesNot() {
    assertThat(TEN_TO_TWENTY.contains(9)).isFalse();
    assertThat(TEN_TO_TWENTY.contains(10)).isTrue();
    assertThat(TEN_TO_TWENTY.contains(19)).isTrue();
    assertThat(TEN_TO_TWENTY.contains(20)).isFalse();
  }

  @Test
  void isNeverEmptyOrBackwards() {
    assertThatThrownBy(() -> Span.of(3, 3)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Span.of(4, 3)).hasMessageContaining("after the start");
  }

  static Stream<Checks.Row> clockChanges() {
    return Checks.rows("10_dst_transitions.csv").stream()
        .filter(row -> row.has("day_length_hours"));
  }

  /** A local day as a span of instants is 23 or 25 hours long where the clock changes. */
  @ParameterizedTest
  @MethodSource("clockChanges")
  void aDayOfAClockChangeHasItsOwnLength(Checks.Row row) {
    ZoneId zone = ZoneId.of(row.text("zone"));
    Instant change = Instant.parse(row.text("utc_instant"));
    LocalDate day = LocalDateTime.parse(row.text("local_after")).toLocalDate();
    Span<Instant> span =
        Span.of(day.atStartOfDay(zone).toInstant(), day.plusDays(1).atStartOfDay(zone).toInstant());
    assertThat(Duration.between(span.start(), span.end()).toMinutes())
        .isEqualTo(Math.round(60 * row.number("day_length_hours")));
    assertThat(span.contains(change)).isTrue();
  }
}
