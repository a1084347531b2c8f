package clinic.stimshelf.recall;

import clinic.stimshelf.calc.days.WorkDays;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.web.Ids;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/** Puts together what is shown of incidents. */
@ApplicationScoped
class IncidentReading {
  @Inject IncidentToldRows toldRows;
  @Inject Patients patients;
  @Inject UnitTags tags;
  @Inject Locations locations;
  @Inject ObjectMapper json;

  IncidentView view(Incident row) {
    List<IncidentTold> told = toldRows.list("incidentId = ?1 order by happenedAt, id", row.id);
    PatientView patient = row.patientId == null ? null : patients.byId(row.patientId);
    LocationView place = locations.byId(row.locationId);
    LocalDate today = locations.today(row.locationId);
    LocalDate reportOn = reportOn(row);
    return new IncidentView(
        String.valueOf(row.id),
        row.kind,
        row.harm,
        place.code(),
        Ids.text(row.patientId),
        patient == null ? null : patient.chartNumber(),
        patient == null ? null : patient.name(),
        Ids.text(row.loanId),
        row.unitId == null ? null : tags.of(List.of(row.unitId)).get(row.unitId),
        row.words,
        row.happenedAt,
        row.recordedAt,
        row.byName,
        row.awareOn,
        row.reportDays,
        reportOn,
        today.isAfter(reportOn)
            ? -WorkDays.between(reportOn, today)
            : WorkDays.between(today, reportOn),
        told.stream().map(IncidentTold::view).toList(),
        missing(told),
        row.state,
        row.closedAt,
        row.closedBy,
        row.closedWords,
        read(row.snapshot),
        row.version);
  }

  List<IncidentLine> lines(List<Incident> page) {
    if (page.isEmpty()) {
      return List.of();
    }
    Map<Long, PatientView> who = patients.byIds(page.stream().map(row -> row.patientId).toList());
    Map<Long, String> tagOf =
        tags.of(page.stream().map(row -> row.unitId).filter(Objects::nonNull).distinct().toList());
    Map<Long, List<IncidentTold>> told =
        toldRows.list("incidentId in ?1", page.stream().map(row -> row.id).toList()).stream()
            .collect(Collectors.groupingBy(one -> one.incidentId));
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    return page.stream()
        .map(
            row -> {
              PatientView patient = row.patientId == null ? null : who.get(row.patientId);
              return new IncidentLine(
                  String.valueOf(row.id),
                  row.kind,
                  row.harm,
                  codes.get(row.locationId),
                  Ids.text(row.patientId),
                  patient == null ? null : patient.chartNumber(),
                  patient == null ? null : patient.name(),
                  row.unitId == null ? null : tagOf.get(row.unitId),
                  row.happenedAt,
                  reportOn(row),
                  missing(told.getOrDefault(row.id, List.of())).size(),
                  row.state);
            })
        .toList();
  }

  List<Whom> untold(Long incidentId) {
    return missing(toldRows.list("incidentId", incidentId));
  }

  private static List<Whom> missing(List<IncidentTold> told) {
    Set<Whom> said = EnumSet.noneOf(Whom.class);
    told.forEach(one -> said.add(one.whom));
    return Arrays.stream(Whom.values()).filter(one -> !said.contains(one)).toList();
  }

  private static LocalDate reportOn(Incident row) {
    return WorkDays.after(row.awareOn, row.reportDays);
  }

  private Frozen read(String text) {
    try {
      return json.readValue(text, Frozen.class);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("What was frozen does not read back", e);
    }
  }
}
