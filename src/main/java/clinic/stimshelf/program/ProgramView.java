package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;
import com.fasterxml.jackson.annotation.JsonFormat;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * A program in its newest version, or in the one that was asked for. What a draft leaves blank, and
 * what cannot be worked out from it yet, is {@code null}.
 *
 * @param version number of the version shown; {@code If-Match} compares with it
 * @param versionState whether that version is a draft, in force or past
 * @param signedVersion number of the version in force, or {@code null}
 * @param changes where the dose differs from its template
 * @param weekdays names such as {@code monday}; {@code null} where only their number is given
 * @param sessions in the whole program: a day x days x weeks
 * @param dueOn an open day of the location; of a draft the day as it would be
 * @param dueKind {@code last-appointment-before-end}, {@code first-appointment-after-last-session}
 *     or {@code drop-off}
 * @param packsNow packs that leave with the unit, over all pad types
 * @param packsLater packs owed on later days, over all pad types
 * @param packs the same by pad type and day
 * @param hold why nobody goes on before a new screening, or {@code null}
 * @param padChanges every day on which some pad set is replaced
 */
public record ProgramView(
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long id,
    String ref,
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long patientId,
    String location,
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long therapistId,
    String therapist,
    ProgramState state,
    int version,
    VersionState versionState,
    Integer signedVersion,
    String template,
    String source,
    List<Change> changes,
    BigDecimal onSeconds,
    BigDecimal offSeconds,
    BigDecimal rampUpSeconds,
    BigDecimal rampDownSeconds,
    Boolean rampInsideOn,
    Boolean dropLastRest,
    Integer contractions,
    BigDecimal minutes,
    BigDecimal frequencyHz,
    FrequencyKind frequencyKind,
    BigDecimal pulseWidthUs,
    String intensity,
    BigDecimal limitMa,
    List<PlacementView> placements,
    List<PadView> pads,
    LocalDate startsOn,
    List<String> weekdays,
    Integer daysPerWeek,
    Integer sessionsPerDay,
    Integer weeks,
    Integer sessions,
    LocalDate lastSessionOn,
    LocalDate dueOn,
    String dueKind,
    Integer sessionsLost,
    List<DueChoice> dueChoices,
    LocalDate nextAppointmentOn,
    Integer packsNow,
    Integer packsLater,
    List<Packs> packs,
    List<LocalDate> padChanges,
    BigDecimal sessionSeconds,
    Integer contractionsPerSession,
    Double dutyPercent,
    String setting,
    String cautions,
    String instructions,
    Instant firstSessionAt,
    boolean settingConfirmed,
    List<Confirmation> settings,
    List<PauseView> pauses,
    Instant stoppedAt,
    String stopReason,
    boolean abandoned,
    HoldView hold,
    List<VersionView> versions) {

  /** A value that differs from the template: its name, what the source prints, what stands now. */
  public record Change(String field, String words, String source, String now) {}

  /**
   * A placement.
   *
   * @param words muscle and side for people
   * @param where the place of the pads in words, or {@code null}
   */
  public record PlacementView(String muscle, Side side, int channels, String where, String words) {}

  /** Pads worn at once. */
  public record PadView(String code, int perSession, String name) {}

  /**
   * One of the three due days.
   *
   * @param on the day, or {@code null} where this choice does not exist
   */
  public record DueChoice(String kind, String words, LocalDate on, String why, int sessionsLost) {}

  /** Packs of one pad type. */
  public record Packs(String code, int now, List<Later> later) {}

  /** Packs owed on a day. */
  public record Later(LocalDate on, int packs) {}

  /** A unit on which the setting of a version was seen. */
  public record Confirmation(String unitTag, int version, String setting, Instant at, String by) {}

  /** Days without sessions, both included. */
  public record PauseView(
      @JsonFormat(shape = JsonFormat.Shape.STRING) Long id,
      LocalDate from,
      LocalDate to,
      String reason) {}

  /**
   * Why nobody goes on before a new screening.
   *
   * @param words the reason for people
   * @param note what was said beside it, or {@code null}
   */
  public record HoldView(String reason, String words, String note, Instant since) {}

  /** One version in the history. */
  public record VersionView(
      int version,
      VersionState state,
      Instant draftedAt,
      String draftedBy,
      Instant signedAt,
      String signedBy,
      boolean cosigned,
      String reason,
      LocalDate startsOn,
      Integer weeks,
      LocalDate dueOn) {}
}
