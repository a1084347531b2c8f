package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.CoverPlan;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/**
 * How many patients therapists see at once, and when they see none.
 *
 * @param atOnce by therapist, where it is not what the location says
 * @param off by therapist
 */
record Roster(int usual, Map<Long, Integer> atOnce, Map<Long, List<Off>> off) {

  /** A stretch without patients. */
  record Off(OffKind kind, String words, Span<Instant> span) {}

  int atOnce(Long therapistId) {
    return atOnce.getOrDefault(therapistId, usual);
  }

  List<Span<Instant>> offSpans(Long therapistId) {
    return off.getOrDefault(therapistId, List.of()).stream().map(Off::span).toList();
  }

  /** Whether the therapist is there and has a place left, with those booked already. */
  boolean hasPlace(Long therapistId, Span<Instant> span, List<Span<Instant>> booked) {
    return off.getOrDefault(therapistId, List.of()).stream()
            .noneMatch(one -> one.span().overlaps(span))
        && CoverPlan.mostAtOnce(span, booked) < atOnce(therapistId);
  }

  /**
   * What is unusual about a visit at that time but allowed, or {@code null}.
   *
   * @param others visits of the therapist, without the one looked at
   */
  String warning(Long therapistId, String name, Span<Instant> span, List<Span<Instant>> others) {
    for (Off one : off.getOrDefault(therapistId, List.of())) {
      if (one.span().overlaps(span)) {
        return name + " " + one.kind().words() + " at that time.";
      }
    }
    int with = CoverPlan.mostAtOnce(span, others);
    int most = atOnce(therapistId);
    return with < most
        ? null
        : name
            + " has "
            + (with == 1 ? "another patient" : with + " other patients")
            + " at the same time, and sees "
            + (most == 1 ? "one" : most)
            + " at once.";
  }
}
