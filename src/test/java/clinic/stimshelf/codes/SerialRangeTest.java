package clinic.stimshelf.codes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

/** Which serial numbers lie between two. The order is ours; no source. */
class SerialRangeTest {

  @Test
  void digits_count_by_their_value() {
    SerialRange range = new SerialRange("SN-9", "SN-120");
    assertThat(range.contains("SN-9")).isTrue();
    assertThat(range.contains("SN-10")).isTrue();
    assertThat(range.contains("sn-0120")).isTrue();
    assertThat(range.contains("SN-121")).isFalse();
    assertThat(range.contains("SN-8")).isFalse();
    assertThat(range.contains("SM-50")).isFalse();
  }

  @Test
  void a_letter_behind_lies_between() {
    SerialRange range = new SerialRange("A12", "A13");
    assertThat(range.contains("A12B")).isTrue();
    assertThat(range.contains("A13B")).isFalse();
  }

  @Test
  void longer_than_any_number_type() {
    SerialRange range =
        new SerialRange("00000000000000000000000000000001", "99999999999999999999999999999999");
    assertThat(range.contains("12345678901234567890123456789")).isTrue();
  }

  @Test
  void an_end_that_is_missing_or_turned_round_is_refused() {
    assertThatThrownBy(() -> new SerialRange("", "B2")).hasMessageContaining("first and a last");
    assertThatThrownBy(() -> new SerialRange("B2", null)).hasMessageContaining("first and a last");
    assertThatThrownBy(() -> new SerialRange("SN-10", "SN-9")).hasMessageContaining("after");
  }

  @Property
  void numbers_with_one_beginning_lie_as_numbers_do(
      @ForAll @IntRange(min = 0, max = 2000) int from,
      @ForAll @IntRange(min = 0, max = 2000) int more,
      @ForAll @IntRange(min = 0, max = 5000) int number) {
    SerialRange range = new SerialRange("KX" + from, "KX" + (from + more));
    assertThat(range.contains("KX" + number)).isEqualTo(number >= from && number <= from + more);
  }

  @Property
  void the_order_is_one_order(
      @ForAll @CharRange(from = '0', to = 'C') @StringLength(min = 1, max = 6) String one,
      @ForAll @CharRange(from = '0', to = 'C') @StringLength(min = 1, max = 6) String two,
      @ForAll @CharRange(from = '0', to = 'C') @StringLength(min = 1, max = 6) String three) {
    assertThat(Integer.signum(SerialRange.compare(one, two)))
        .isEqualTo(-Integer.signum(SerialRange.compare(two, one)));
    if (SerialRange.compare(one, two) <= 0 && SerialRange.compare(two, three) <= 0) {
      assertThat(SerialRange.compare(one, three)).isLessThanOrEqualTo(0);
    }
  }
}
