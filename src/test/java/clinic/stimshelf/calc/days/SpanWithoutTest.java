package clinic.stimshelf.calc.days;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class SpanWithoutTest {
  private static final Span<Integer> WHOLE = Span.of(10, 30);

  @Property
  void whatIsLeftAreThePointsOfNoOther(
      @ForAll @Size(max = 6) List<@IntRange(min = 0, max = 38) Integer> starts,
      @ForAll @IntRange(min = 1, max = 12) int length) {
    List<Span<Integer>> others = new ArrayList<>();
    for (int i = 0; i < starts.size(); i++) {
      others.add(Span.of(starts.get(i), starts.get(i) + 1 + (length * (i + 1)) % 12));
    }
    List<Span<Integer>> left = WHOLE.without(others);
    for (int point = 0; point < 55; point++) {
      int at = point;
      assertThat(left.stream().filter(one -> one.contains(at)).count())
          .as("point %d of %s", point, others)
          .isEqualTo(
              WHOLE.contains(point) && others.stream().noneMatch(one -> one.contains(at)) ? 1 : 0);
    }
    for (int i = 1; i < left.size(); i++) {
      assertThat(left.get(i - 1).end()).as("in order, apart").isLessThan(left.get(i).start());
    }
  }
}
