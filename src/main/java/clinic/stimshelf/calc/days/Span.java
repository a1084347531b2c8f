package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.BadInput;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A half-open interval: its start belongs to it, its end does not. A span is never empty, so two
 * bookings collide exactly when their spans overlap, and one may begin where the other ends.
 *
 * <p>Of two spans exactly one holds: the first is {@linkplain #isBefore before} the second, or
 * {@linkplain #isAfter after} it, or they {@linkplain #overlaps overlap}. Spans that are before or
 * after one another without a gap {@linkplain #abuts abut}.
 *
 * @param <T> instants, local date-times or days
 * @param start first point of the span
 * @param end first point after the span
 */
public record Span<T extends Comparable<? super T>>(T start, T end) {

  /**
   * @throws BadInput if the end is not after the start
   */
  public Span {
    if (!(start.compareTo(end) < 0)) {
      throw new BadInput("end", "The end " + end + " must be after the start " + start + ".");
    }
  }

  /** The span from {@code startInclusive} to {@code endExclusive}. */
  public static <T extends Comparable<? super T>> Span<T> of(T startInclusive, T endExclusive) {
    return new Span<>(startInclusive, endExclusive);
  }

  /** Whether the point lies in this span; the end does not. */
  public boolean contains(T point) {
    return start.compareTo(point) <= 0 && point.compareTo(end) < 0;
  }

  /** Whether every point of the other span lies in this one; a span encloses itself. */
  public boolean encloses(Span<T> other) {
    return start.compareTo(other.start) <= 0 && other.end.compareTo(end) <= 0;
  }

  /** Whether this span ends at or before the other's start. */
  public boolean isBefore(Span<T> other) {
    return end.compareTo(other.start) <= 0;
  }

  /** Whether this span starts at or after the other's end. */
  public boolean isAfter(Span<T> other) {
    return other.isBefore(this);
  }

  /** Whether the spans share a point. Symmetric; spans that only touch do not overlap. */
  public boolean overlaps(Span<T> other) {
    return !isBefore(other) && !isAfter(other);
  }

  /** Whether one span starts exactly where the other ends. Symmetric. */
  public boolean abuts(Span<T> other) {
    return end.compareTo(other.start) == 0 || other.end.compareTo(start) == 0;
  }

  /** Whether the spans overlap or abut, so that their union has no gap. Symmetric. */
  public boolean isConnected(Span<T> other) {
    return overlaps(other) || abuts(other);
  }

  /** The points that both spans share; empty where they do not overlap. */
  public Optional<Span<T>> intersection(Span<T> other) {
    return overlaps(other)
        ? Optional.of(new Span<>(later(start, other.start), earlier(end, other.end)))
        : Optional.empty();
  }

  /** The smallest span that encloses both, with the gap between them if there is one. */
  public Span<T> hull(Span<T> other) {
    return new Span<>(earlier(start, other.start), later(end, other.end));
  }

  /** The points between two spans; empty where they are connected. */
  public Optional<Span<T>> gap(Span<T> other) {
    return isConnected(other)
        ? Optional.empty()
        : Optional.of(new Span<>(earlier(end, other.end), later(start, other.start)));
  }

  /**
   * The points of this span that lie in none of the others, as spans in order that do not touch.
   * Together with the intersections they make up this span.
   *
   * @param others in any order; they may overlap
   */
  public List<Span<T>> without(Collection<Span<T>> others) {
    List<Span<T>> left = new ArrayList<>();
    T from = start;
    for (Span<T> other :
        others.stream().filter(this::overlaps).sorted(Comparator.comparing(Span::start)).toList()) {
      if (from.compareTo(other.start) < 0) {
        left.add(new Span<>(from, other.start));
      }
      from = later(from, other.end);
    }
    if (from.compareTo(end) < 0) {
      left.add(new Span<>(from, end));
    }
    return left;
  }

  private static <T extends Comparable<? super T>> T earlier(T a, T b) {
    return a.compareTo(b) <= 0 ? a : b;
  }

  private static <T extends Comparable<? super T>> T later(T a, T b) {
    return a.compareTo(b) >= 0 ? a : b;
  }
}
