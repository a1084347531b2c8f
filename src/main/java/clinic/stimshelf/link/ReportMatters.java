package clinic.stimshelf.link;

import clinic.stimshelf.desk.DeskAlert;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.NeedsMeSource;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Reports on the pages of those who must see them: at once with the patient's therapist, after an
 * open hour with everybody; what cannot wait stands at the desk at once.
 */
@ApplicationScoped
class ReportMatters implements NeedsMeSource, DeskAlert {
  private static final int STOPPED = 10;
  private static final int PADS = 21;

  @Inject Reports reports;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Locations locations;

  @Override
  @Transactional
  public List<Section> sections(Ask ask) {
    List<ReportView> open = reports.open(ask.locationId());
    if (open.isEmpty()) {
      return List.of();
    }
    Map<Long, SignedProgram> signed =
        programs.signed(open.stream().map(ReportView::programId).distinct().toList());
    List<ReportView> mine =
        open.stream()
            .filter(
                one ->
                    ask.therapistId() == null
                        || one.escalated()
                        || one.kind() == ReportKind.CALL
                        || isTherapist(ask.therapistId(), signed.get(one.programId())))
            .toList();
    Map<Long, PatientView> who = who(mine);
    List<Line> stopped = new ArrayList<>();
    List<Line> pads = new ArrayList<>();
    for (ReportView one : mine) {
      PatientView patient = who.get(one.patientId());
      boolean another =
          ask.therapistId() != null && !isTherapist(ask.therapistId(), signed.get(one.programId()));
      (one.kind().stops() ? stopped : pads)
          .add(
              new Line(
                  Days.clock(one.at().atZone(locations.zone(one.locationId())).toLocalTime()),
                  patient.name(),
                  patient.chartNumber(),
                  one.kind().words(),
                  (one.kind().stops() ? "Was told to stop. " : "")
                      + "Reported "
                      + Days.at(one.at(), locations.zone(one.locationId()))
                      + "."
                      + (one.escalated() ? " Nobody has answered for an open hour." : "")
                      + (another ? " A colleague’s patient." : ""),
                  "/reports/" + one.id(),
                  "Call and answer"));
    }
    return List.of(
        new Section(STOPPED, "Stopped: skin or leg", stopped),
        new Section(PADS, "Pads will not stick", pads));
  }

  private static boolean isTherapist(Long staffId, SignedProgram program) {
    return program != null && staffId.equals(program.therapistId());
  }

  @Override
  @Transactional
  public List<Alert> alerts(Long locationId) {
    List<ReportView> urgent =
        reports.open(locationId).stream()
            .filter(one -> one.escalated() || one.kind() == ReportKind.CALL)
            .toList();
    Map<Long, PatientView> who = who(urgent);
    return urgent.stream()
        .map(
            one ->
                new Alert(
                    who.get(one.patientId()).name(),
                    who.get(one.patientId()).chartNumber(),
                    one.kind().words(),
                    "Reported "
                        + Days.at(one.at(), locations.zone(one.locationId()))
                        + (one.escalated() ? "; nobody has answered for an open hour." : "."),
                    "/reports/" + one.id(),
                    "Look at report"))
        .toList();
  }

  private Map<Long, PatientView> who(List<ReportView> all) {
    return patients.byIds(all.stream().map(ReportView::patientId).collect(Collectors.toSet()));
  }
}
