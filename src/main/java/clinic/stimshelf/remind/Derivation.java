package clinic.stimshelf.remind;

import clinic.stimshelf.appointments.ComingVisits;
import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.days.QuietHours;
import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.ReminderDays.Rung;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.PatientView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What patients are to be told, from their loans and appointments as they stand. The cost is that
 * of a few questions to the database, however many patients are asked about.
 */
@ApplicationScoped
class Derivation {
  /** How long something without a day of its own is still worth telling. */
  private static final int USEFUL_DAYS = 3;

  @Inject Ladder ladder;
  @Inject Ways ways;
  @Inject Loans loans;
  @Inject ComingVisits visits;
  @Inject Locations locations;
  @Inject Clock clock;

  /** A location's hours for messages. */
  record Place(
      Long id, ZoneId zone, OpenDays open, LocalTime time, QuietHours quiet, LocalDate today) {

    Instant moment(LocalDate day, boolean after) {
      LocalDateTime wished = day.atTime(time);
      return (after ? quiet.later(wished) : quiet.earlier(wished)).atZone(zone).toInstant();
    }

    /** Now, or the end of the quiet hours. */
    Instant allowed(Instant now) {
      ZonedDateTime local = now.atZone(zone);
      return quiet.quiet(local.toLocalTime())
          ? quiet.later(local.toLocalDateTime()).atZone(zone).toInstant()
          : now;
    }
  }

  Place place(Long locationId) {
    LocationView location = locations.byId(locationId);
    LocationSettings settings = locations.settings(locationId);
    return new Place(
        locationId,
        location.zone(),
        locations.openDays(locationId),
        settings.time(Setting.REMINDER_TIME),
        new QuietHours(settings.time(Setting.QUIET_FROM), settings.time(Setting.QUIET_UNTIL)),
        LocalDate.ofInstant(clock.instant(), location.zone()));
  }

  List<Wanted> of(Collection<PatientView> people) {
    Map<Long, PatientView> living =
        people.stream()
            .filter(one -> one.diedOn() == null)
            .collect(Collectors.toMap(PatientView::id, one -> one));
    if (living.isEmpty()) {
      return List.of();
    }
    Map<Long, List<ContactStop>> stopped =
        ways.stoppedFor(living.keySet()).stream()
            .collect(Collectors.groupingBy(stop -> stop.patientId));
    Map<String, Long> ids =
        locations.all().stream().collect(Collectors.toMap(LocationView::code, LocationView::id));
    Map<Long, Place> places = new HashMap<>();
    List<Wanted> wanted = new ArrayList<>();
    List<LoanView> open = loans.openOfPatients(living.keySet());
    Map<Long, List<Rung>> ladders =
        loans.ladders(open.stream().map(loan -> Long.valueOf(loan.id())).toList());
    for (LoanView loan : open) {
      Long patientId = Long.valueOf(loan.patientId());
      ofLoan(
          loan,
          ladders.get(Long.valueOf(loan.id())),
          living.get(patientId),
          places.computeIfAbsent(ids.get(loan.location()), this::place),
          stopped.getOrDefault(patientId, List.of()),
          wanted);
    }
    for (ComingVisits.Coming visit : visits.of(living.keySet())) {
      ofVisit(
          visit,
          living.get(visit.patientId()),
          places.computeIfAbsent(visit.locationId(), this::place),
          stopped.getOrDefault(visit.patientId(), List.of()),
          wanted);
    }
    return wanted;
  }

  private void ofLoan(
      LoanView loan,
      List<Rung> rungs,
      PatientView patient,
      Place place,
      List<ContactStop> stopped,
      List<Wanted> wanted) {
    Long loanId = Long.valueOf(loan.id());
    Set<String> passed = new HashSet<>();
    Rung latest = null;
    for (Rung rung : rungs) {
      if (!rung.channel().equals(LadderFile.MESSAGE) && !rung.day().isAfter(place.today())) {
        passed.add(rung.kind());
        latest = rung;
      }
    }
    Instant closing = locations.closingTime(place.id(), loan.dueOn());
    for (Rung rung : rungs) {
      boolean message = rung.channel().equals(LadderFile.MESSAGE);
      LadderFile.Step step = ladder.step(place.id(), rung.kind()).orElse(null);
      // A later call, letter or task takes the place of the one before it.
      boolean overtaken = !message && passed.contains(rung.kind()) && !rung.equals(latest);
      if (step == null || overtaken || (message && loan.state() != LoanState.OUT)) {
        continue;
      }
      Instant until =
          step.anchor() == LadderFile.Anchor.DUE && !step.after() ? closing : later(rung, place);
      add(
          "loan:" + loanId,
          rung,
          step,
          patient,
          place,
          loanId,
          null,
          message ? until : null,
          stopped,
          wanted);
    }
  }

  private void ofVisit(
      ComingVisits.Coming visit,
      PatientView patient,
      Place place,
      List<ContactStop> stopped,
      List<Wanted> wanted) {
    ZonedDateTime at = visit.startsAt().atZone(place.zone());
    for (Rung rung : ladder.appointment(place.id(), at.toLocalDate(), place.open())) {
      LadderFile.Step step = ladder.step(place.id(), rung.kind()).orElseThrow();
      // Moved to another time it is another appointment, of which the patient must hear.
      add(
          "appointment:" + visit.id() + "@" + at.toLocalTime(),
          rung,
          step,
          patient,
          place,
          null,
          visit.id(),
          visit.startsAt(),
          stopped,
          wanted);
    }
  }

  private void add(
      String subject,
      Rung rung,
      LadderFile.Step step,
      PatientView patient,
      Place place,
      @Nullable Long loanId,
      @Nullable Long appointmentId,
      @Nullable Instant until,
      List<ContactStop> stopped,
      List<Wanted> wanted) {
    Route route = ways.of(patient, step, stopped);
    if (route == null || (!route.sent() && until != null && until.isBefore(clock.instant()))) {
      return;
    }
    wanted.add(
        new Wanted(
            String.join("/", subject, rung.kind(), rung.channel(), rung.about().toString()),
            patient.id(),
            place.id(),
            loanId,
            appointmentId,
            rung.kind(),
            rung.channel(),
            route,
            rung.about(),
            rung.day(),
            route.sent()
                ? place.moment(rung.day(), step.after())
                : rung.day().atStartOfDay(place.zone()).toInstant(),
            until,
            rung.words()));
  }

  private static Instant later(Rung rung, Place place) {
    return rung.day().plusDays(USEFUL_DAYS).atStartOfDay(place.zone()).toInstant();
  }
}
