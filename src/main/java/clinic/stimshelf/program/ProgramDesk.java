package clinic.stimshelf.program;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.OrderView;
import clinic.stimshelf.people.Orders;
import clinic.stimshelf.people.ScreeningStatus;
import clinic.stimshelf.people.ScreeningView;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Option;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;

/** What a program's pages show around it: screening and order, and what follows from it. */
@ApplicationScoped
class ProgramDesk {
  @Inject Programs programs;
  @Inject ProgramViews views;
  @Inject Surveys surveys;
  @Inject Screenings screenings;
  @Inject Orders orders;
  @Inject Locations locations;
  @Inject Staff staff;

  /**
   * Whether a placement may be stimulated.
   *
   * @param clear whether nothing stands against it
   */
  record Screened(String words, boolean clear, List<String> why) {}

  /** What follows from a content that is being written. */
  @Transactional
  OutlookView outlook(Long patientId, Long locationId, Long programId, Content content) {
    List<Pause> pauses = programId == null ? List.of() : programs.row(programId).pauses;
    return view(
        content, surveys.ofDraft(patientId, locationId, content, pauses), locationId, pauses);
  }

  /** To whom a program can be handed over. */
  List<Option> colleagues(Long locationId, Long therapistId) {
    return staff.therapistsAt(locationId).stream()
        .filter(one -> !one.id().equals(therapistId))
        .map(one -> new Option(one.id().toString(), one.name() + ", " + one.credential().label()))
        .toList();
  }

  /** What stands in a program's newest version. */
  @Transactional
  Content content(Long programId) {
    return Writing.read(programs.row(programId).latest());
  }

  /** What follows from a version as it stands. */
  @Transactional
  OutlookView outlook(Long programId, int number) {
    Program program = programs.row(programId);
    ProgramVersion version = program.version(number);
    return view(
        Writing.read(version),
        surveys.ofVersion(program, version),
        program.locationId,
        program.pauses);
  }

  private OutlookView view(Content content, Outlook outlook, Long locationId, List<Pause> pauses) {
    if (outlook.days() == null) {
      return OutlookView.of(content, outlook, null);
    }
    var due = outlook.dueOrDropOff(content.dueKind());
    MonthPicture month =
        MonthPicture.of(
            outlook.days(),
            outlook.pads(),
            due == null || content.dueKind() == null ? null : due.day(),
            outlook.nextAppointment(),
            locations.openDays(locationId),
            day -> pauses.stream().anyMatch(pause -> pause.covers(day)));
    return OutlookView.of(content, outlook, month);
  }

  /** The screening of each placement; of all that is on record while none is written yet. */
  @Transactional
  List<Screened> screened(Long patientId, Long locationId, Content content) {
    LocalDate today = locations.today(locationId);
    ZoneId zone = locations.zone(locationId);
    List<Screened> lines = new ArrayList<>();
    for (Placement placement : content.placements()) {
      if (placement.side() != null && placement.muscle() != null) {
        ScreeningStatus status =
            screenings.status(patientId, placement.muscle(), placement.side().word(), today);
        lines.add(
            new Screened(
                views.words(placement.muscle(), placement.side(), "en"),
                status.clear(),
                status.reasons()));
      }
    }
    if (lines.isEmpty()) {
      for (ScreeningView one : screenings.of(patientId)) {
        if (!one.superseded()) {
          lines.add(
              new Screened(
                  one.regionWords()
                      + ", "
                      + one.side().words("en")
                      + ", screened "
                      + Days.full(one.screenedAt().atZone(zone).toLocalDate()),
                  one.outdatedReason() == null,
                  one.outdatedReason() == null ? List.of() : List.of(one.outdatedReason())));
        }
      }
    }
    return lines;
  }

  /** The prescriber's order that runs today, in words, or {@code null}. */
  @Transactional
  String order(Long patientId, Long locationId) {
    return orders
        .running(patientId, locations.today(locationId))
        .map(ProgramDesk::words)
        .orElse(null);
  }

  private static String words(OrderView order) {
    return "Order of "
        + order.prescriber()
        + ", "
        + Days.full(order.orderedOn())
        + ": "
        + order.ordered()
        + (order.restrictions() == null ? "" : " — " + order.restrictions());
  }
}
