package clinic.stimshelf.appointments;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.CoverPlan;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** A unit fails, a therapist is called out: the day is planned again, with what that changed. */
@ApplicationScoped
class DayUpsets {
  private static final int DAYS_AHEAD = 60;
  private static final String UNIT = "unit";
  private static final String THERAPIST = "therapist";

  @Inject EntityManager em;
  @Inject AppointmentRows rows;
  @Inject Appointments appointments;
  @Inject ResourceDays days;
  @Inject UnitPlans plans;
  @Inject TherapistTimes therapists;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject SignedIn signedIn;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * What an upset changed.
   *
   * @param becomes {@code null} where nobody and nothing could be found
   */
  record Change(AppointmentView appointment, String what, String was, String becomes) {}

  /** An upset of a day with everything it changed, by time. */
  record UpsetView(
      Long id, LocalDate day, String cause, String words, Instant enteredAt, List<Change> changes) {

    /** What changed on the day itself. */
    public List<Change> onDay() {
      return changes.stream().filter(change -> change.appointment().day().equals(day)).toList();
    }

    /** What changed on later days. */
    public List<Change> later() {
      return changes.stream().filter(change -> change.appointment().day().isAfter(day)).toList();
    }

    /** For what nothing was found. */
    public List<Change> open() {
      return changes.stream().filter(change -> change.becomes() == null).toList();
    }
  }

  /**
   * A unit of the shelf or in a treatment failed: it goes out of service, and what it should have
   * served today gets another; so does what it was planned for on later days.
   *
   * @param words what is wrong with it
   * @return number of the upset
   */
  @Retried
  @Transactional
  Long unitFailed(Long locationId, String tag, String words) {
    signedIn.requireLocation(locationId);
    UnitView unit = shelf.byTag(tag.strip());
    Refusals refusals = new Refusals();
    if (!unit.locationId().equals(locationId)) {
      refusals.add("unitTag", "Unit " + unit.tag() + " is kept at another location.");
    }
    if (unit.state() == UnitState.ON_LOAN) {
      refusals.add(
          "unitTag",
          "Unit " + unit.tag() + " is with a patient.",
          "Swap it on the loan's page; nothing is planned with it here.");
    }
    if (words == null || words.isBlank() || words.length() > 300) {
      refusals.add("words", "Say in at most 300 characters what is wrong with the unit.");
    }
    refusals.throwIfAny();
    LocalDate day = locations.today(locationId);
    days.lock(day, locationId, null);
    ZoneId zone = locations.zone(locationId);
    List<Appointment> treatments =
        rows.treatments(
            locationId,
            day.atStartOfDay(zone).toInstant(),
            day.plusDays(DAYS_AHEAD).atStartOfDay(zone).toInstant());
    Map<Long, Long> before = new HashMap<>();
    treatments.forEach(row -> before.put(row.id, row.unitId));
    Happened now = times.now();
    TreeSet<LocalDate> touched = new TreeSet<>(Set.of(day));
    for (Appointment row : treatments) {
      LocalDate on = LocalDate.ofInstant(row.startsAt, zone);
      if (unit.id().equals(row.unitId) && (on.equals(day) || row.unitPlanned)) {
        release(row, now);
        touched.add(on);
      }
    }
    rows.flush();
    if (unit.state() != UnitState.OUT_OF_SERVICE) {
      care.outOfService(unit.tag(), UnitCare.Cause.FAULT, words.strip(), now);
    }
    touched.forEach(on -> plans.follow(locationId, on));
    DayUpset upset =
        upset(locationId, day, DayUpset.UNIT, "Unit " + unit.tag() + ": " + words.strip());
    Map<Long, String> tags =
        shelf.at(locationId).stream().collect(Collectors.toMap(UnitView::id, UnitView::tag));
    for (Appointment row : treatments) {
      Long was = before.get(row.id);
      if (was != null && !Objects.equals(was, row.unitId)) {
        line(upset, row, UNIT, tags.get(was), row.unitId == null ? null : tags.get(row.unitId));
      }
    }
    return upset.id;
  }

  /**
   * A therapist cannot work: what they should have treated on that day goes to others who have a
   * place left. A student takes nobody over.
   *
   * @param from {@code null} for the whole day
   * @return number of the upset
   */
  @Retried
  @Transactional
  Long calledOut(Long locationId, Long therapistId, LocalDate day, LocalTime from, String words) {
    signedIn.requireLocation(locationId);
    List<StaffView> here = staff.therapistsAt(locationId);
    StaffView away =
        here.stream()
            .filter(one -> one.id().equals(therapistId))
            .findFirst()
            .orElseThrow(() -> new Refusal("therapist", "Choose a therapist of this location."));
    if (day == null || day.isBefore(locations.today(locationId))) {
      throw new Refusal("day", "The day lies before today.", "Choose today or a later day.");
    }
    days.lock(day, locationId, null);
    therapists.enter(
        new TherapistTimes.NewTimeOff(
            therapistId,
            OffKind.CALLED_OUT,
            day,
            null,
            false,
            from,
            from == null ? null : LocalTime.of(23, 59),
            words));
    ZoneId zone = locations.zone(locationId);
    Instant begin =
        from == null
            ? day.atStartOfDay(zone).toInstant()
            : day.atTime(from).atZone(zone).toInstant();
    List<Appointment> orphans =
        rows.list(
            "locationId = ?1 and therapistId = ?2 and state = ?3 and endsAt > ?4 and startsAt < ?5"
                + " order by startsAt, id",
            locationId,
            therapistId,
            AppointmentState.BOOKED,
            begin.isBefore(clock.instant()) ? clock.instant() : begin,
            day.plusDays(1).atStartOfDay(zone).toInstant());
    CoverPlan cover = cover(locationId, here, therapistId, day, zone, orphans);
    DayUpset upset = upset(locationId, day, DayUpset.THERAPIST, away.name() + " was called out");
    Map<String, StaffView> byId =
        here.stream().collect(Collectors.toMap(one -> one.id().toString(), one -> one));
    for (Appointment row : orphans) {
      StaffView other = byId.get(String.valueOf(cover.therapistOf().get(row.id.toString())));
      line(upset, row, THERAPIST, away.name(), other == null ? null : other.name());
      if (other != null) {
        Appointment.Facts before = row.facts();
        row.therapistId = other.id();
        appointments.record(row, "given to another therapist", times.now(), before);
      }
    }
    return upset.id;
  }

  private CoverPlan cover(
      Long locationId,
      List<StaffView> here,
      Long awayId,
      LocalDate day,
      ZoneId zone,
      List<Appointment> orphans) {
    List<Long> others =
        here.stream()
            .filter(one -> one.credential() != Credential.STUDENT_PT)
            .map(StaffView::id)
            .filter(id -> !id.equals(awayId))
            .toList();
    Roster roster =
        therapists.roster(
            others, locations.settings(locationId).whole(Setting.PATIENTS_AT_ONCE), day, day, zone);
    Map<Long, List<Span<Instant>>> booked =
        rows.ofTherapists(
            others,
            day.atStartOfDay(zone).toInstant(),
            day.plusDays(1).atStartOfDay(zone).toInstant());
    return CoverPlan.of(
        others.stream()
            .map(
                id ->
                    new CoverPlan.Therapist(
                        id.toString(),
                        roster.atOnce(id),
                        booked.getOrDefault(id, List.of()).stream().map(DayUpsets::utc).toList(),
                        roster.offSpans(id).stream().map(DayUpsets::utc).toList()))
            .toList(),
        orphans.stream()
            .map(row -> new CoverPlan.Visit(row.id.toString(), utc(row.span())))
            .toList());
  }

  /**
   * @throws NotFound if there is none at the locations of the person asking
   */
  @Transactional
  UpsetView byId(Long id) {
    DayUpset upset = id == null ? null : em.find(DayUpset.class, id);
    if (upset == null || !signedIn.mayActAt(upset.locationId)) {
      throw new NotFound("There is no such change at your locations.");
    }
    List<DayUpsetLine> lines =
        em.createQuery("from DayUpsetLine l where l.upsetId = ?1", DayUpsetLine.class)
            .setParameter(1, id)
            .getResultList();
    Map<Long, AppointmentView> views =
        appointments.byIds(lines.stream().map(line -> line.appointmentId).toList());
    return new UpsetView(
        id,
        upset.onDay,
        upset.cause,
        upset.words,
        upset.enteredAt,
        lines.stream()
            .map(
                line ->
                    new Change(views.get(line.appointmentId), line.what, line.was, line.becomes))
            .sorted(java.util.Comparator.comparing(change -> change.appointment().startsAt()))
            .toList());
  }

  /** Numbers and words of what upset a day, the latest first. */
  @Transactional
  List<DayUpset> of(Long locationId, LocalDate day) {
    return em.createQuery(
            "from DayUpset u where u.locationId = ?1 and u.onDay = ?2 order by u.id desc",
            DayUpset.class)
        .setParameter(1, locationId)
        .setParameter(2, day)
        .getResultList();
  }

  private void release(Appointment row, Happened now) {
    if (row.unitInUse) {
      shelf.end(row.unitId, UseKind.TREATMENT, row.id, now, UnitState.TO_WIPE);
      row.unitInUse = false;
    }
    row.unitId = null;
    row.unitPlanned = false;
  }

  private DayUpset upset(Long locationId, LocalDate day, String cause, String words) {
    DayUpset upset = new DayUpset();
    upset.locationId = locationId;
    upset.onDay = day;
    upset.cause = cause;
    upset.words = words;
    upset.enteredAt = clock.instant();
    upset.enteredBy = signedIn.staffId();
    em.persist(upset);
    return upset;
  }

  private void line(DayUpset upset, Appointment row, String what, String was, String becomes) {
    DayUpsetLine line = new DayUpsetLine();
    line.upsetId = upset.id;
    line.appointmentId = row.id;
    line.what = what;
    line.was = was;
    line.becomes = becomes;
    em.persist(line);
  }

  private static Span<LocalDateTime> utc(Span<Instant> span) {
    return Span.of(
        LocalDateTime.ofInstant(span.start(), ZoneOffset.UTC),
        LocalDateTime.ofInstant(span.end(), ZoneOffset.UTC));
  }
}
