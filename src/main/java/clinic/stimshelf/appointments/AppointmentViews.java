package clinic.stimshelf.appointments;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.RoomView;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/** Reads what belongs to a list of appointments, with one query a kind of thing. */
@ApplicationScoped
class AppointmentViews {
  @Inject AppointmentWarnings warnings;
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject Shelf shelf;
  @Inject LoanedUnits loanedUnits;

  List<AppointmentView> of(List<Appointment> found) {
    if (found.isEmpty()) {
      return List.of();
    }
    Set<Long> patientIds = found.stream().map(row -> row.patientId).collect(Collectors.toSet());
    Map<Long, PatientView> people = patients.byIds(patientIds);
    Map<Long, String> names = staff.names(found.stream().map(row -> row.therapistId).toList());
    Map<Long, UnitView> units =
        shelf.byIds(
            found.stream().map(row -> row.unitId).filter(Objects::nonNull).distinct().toList());
    Map<Long, LoanedUnits.Loaned> loaned =
        loanedUnits.of(
            found.stream()
                .filter(row -> !row.state.over())
                .map(row -> row.patientId)
                .collect(Collectors.toSet()));
    Map<Long, LocationView> places = new HashMap<>();
    Map<Long, String> rooms = new HashMap<>();
    for (Long locationId : found.stream().map(row -> row.locationId).distinct().toList()) {
      places.put(locationId, locations.byId(locationId));
      for (RoomView room : locations.rooms(locationId)) {
        rooms.put(room.id(), room.name());
      }
    }
    Map<Long, List<String>> unusual = warnings.of(found, names);
    return found.stream()
        .map(
            row -> {
              PatientView patient = people.get(row.patientId);
              LocationView place = places.get(row.locationId);
              LoanedUnits.Loaned home = row.state.over() ? null : loaned.get(row.patientId);
              if (home != null
                  && home.dueOn().isBefore(LocalDate.ofInstant(row.startsAt, place.zone()))) {
                home = null;
              }
              return view(
                  row,
                  place,
                  patient,
                  row.therapistId == null ? null : names.get(row.therapistId),
                  row.roomId == null ? null : rooms.get(row.roomId),
                  row.unitId == null ? null : units.get(row.unitId),
                  home,
                  unusual.getOrDefault(row.id, List.of()));
            })
        .toList();
  }

  private static AppointmentView view(
      Appointment row,
      LocationView place,
      PatientView patient,
      String therapist,
      String room,
      UnitView unit,
      LoanedUnits.Loaned loaned,
      List<String> warnings) {
    return new AppointmentView(
        row.id,
        row.locationId,
        place.code(),
        place.zone(),
        row.patientId,
        patient.chartNumber(),
        patient.name(),
        patient.interpreter(),
        row.therapistId,
        therapist,
        row.roomId,
        room,
        row.startsAt,
        row.endsAt,
        row.treatmentStartsAt,
        row.treatmentEndsAt,
        row.channels,
        unit,
        row.unitPlanned,
        row.loanedForgotten ? null : loaned,
        row.loanedForgotten && loaned != null,
        row.state,
        row.reason,
        row.note,
        row.arrivedAt,
        row.completedAt,
        warnings,
        row.version);
  }
}
