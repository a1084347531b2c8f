package clinic.stimshelf.shelf;

import java.time.Instant;
import java.time.LocalDate;

/** What files say about the shelf: rows of history, each with the name that its file gives it. */
public final class Entered {
  private Entered() {}

  /**
   * A unit.
   *
   * @param kind code of its kind
   * @param spot name of its storage spot, or {@code null}
   * @param purpose home, clinic or both; {@code null} for both
   * @param state ready, to-wipe, to-inspect, out-of-service, missing or retired; {@code null} for
   *     ready. A loan that runs sets its own.
   */
  public record EnteredUnit(
      String ref,
      String tag,
      String serial,
      String kind,
      Long locationId,
      String spot,
      String purpose,
      String state,
      String stateReason,
      LocalDate nextTestOn,
      Instant chargedAt,
      Integer useCounter,
      LocalDate acquiredOn,
      LocalDate retiredOn,
      String ownerWords) {}

  /**
   * A part of a kit.
   *
   * @param part word of its kind, such as lead-set
   * @param essential {@code null} for what is usual
   * @param present {@code null} for there
   */
  public record EnteredPart(
      String ref,
      String unit,
      String part,
      String name,
      String tag,
      Boolean essential,
      Boolean present) {}

  /** A wipe with a product of config/wipe-products.yaml. */
  public record EnteredWipe(
      String ref, String unit, String product, Instant wipedAt, String doneBy, String note) {}

  /** An inspection without its single answers. */
  public record EnteredInspection(
      String ref, String unit, Instant inspectedAt, Boolean passed, String doneBy, String note) {}

  /** A safety test. It sets no due day: the unit's own row does. */
  public record EnteredTest(
      String ref,
      String unit,
      LocalDate testedOn,
      Boolean passed,
      LocalDate nextDueOn,
      String tester,
      String certificate,
      String note) {}

  /** A fault or drop. */
  public record EnteredFault(
      String ref, String unit, String kind, Instant noticedAt, String words, String toldBy) {}

  /**
   * A use.
   *
   * @param endedAt {@code null} if it still runs
   * @param missing whether it runs and the unit cannot be had back
   * @param sessions known to have been done, or {@code null}
   */
  public record EnteredUse(
      Long unitId,
      UseKind kind,
      Long subjectId,
      Instant startsAt,
      Instant until,
      Instant endedAt,
      boolean missing,
      Integer sessions) {}
}
