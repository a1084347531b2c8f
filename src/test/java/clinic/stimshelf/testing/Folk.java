package clinic.stimshelf.testing;

import clinic.stimshelf.people.Answer;
import clinic.stimshelf.people.NewPatient;
import clinic.stimshelf.people.NewScreening;
import clinic.stimshelf.people.NewScreening.Confirmed;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.Question;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.people.Side;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Patients for tests, each under a chart number of its own. */
@ApplicationScoped
public class Folk {
  @Inject Patients patients;
  @Inject Screenings screenings;
  @Inject Crew crew;

  /** A grown patient of the location who may be called. */
  public static NewPatient entry(Long locationId) {
    return entry(locationId, Crew.unique("T-"), "Ada Lindqvist", LocalDate.of(1980, 5, 17));
  }

  public static NewPatient entry(Long locationId, String chart, String name, LocalDate born) {
    return new NewPatient(
        null,
        locationId,
        chart,
        name,
        born,
        null,
        null,
        "en",
        false,
        ReachBy.CALL,
        "(555) 010-0100",
        null,
        null,
        true,
        null);
  }

  @ActivateRequestContext
  public Long patient(Long locationId) {
    return patients.add(entry(locationId));
  }

  /** Screens a patient in a therapist's name: no to everything. */
  @ActivateRequestContext
  public Long screened(Long patientId, String muscle, Side side, Crew.Member therapist) {
    return screened(patientId, muscle, side, therapist, Map.of());
  }

  /** The same with some answers other than no. */
  @ActivateRequestContext
  public Long screened(
      Long patientId, String muscle, Side side, Crew.Member therapist, Map<String, Answer> butFor) {
    return crew.as(
        therapist.id(),
        () ->
            screenings.screen(
                new NewScreening(patientId, muscle, side, answers(muscle, butFor), null, null)));
  }

  /** An answer for each question asked of the muscle's region: no, but for those named. */
  public List<Confirmed> answers(String muscle, Map<String, Answer> butFor) {
    List<Confirmed> answers = new ArrayList<>();
    for (Question question : screenings.questionsFor(muscle)) {
      answers.add(
          new Confirmed(
              question.key(), butFor.getOrDefault(question.key(), Answer.NO), null, null));
    }
    return answers;
  }
}
