package clinic.stimshelf.people;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The patient's own form: on the screen that is handed over (a page that shows nothing else), or
 * typed in from paper.
 */
@Path("/patients/{patient}/intake")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
class IntakePages {
  private static final List<Option> ENGLISH = choices("No", "Yes", "Not sure");
  private static final List<Option> SPANISH = choices("No", "Sí", "No estoy seguro/a");

  @Inject Intakes intakes;
  @Inject Patients patients;
  @Inject Muscles muscles;

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IntakeStart(
      PatientView patient,
      Form form,
      List<Option> muscles,
      List<Option> sides,
      List<Option> languages,
      List<Option> means)
      implements TemplateInstance {}

  /** A question in the patient's language. */
  record Asked(String key, String words) {

    public String field() {
      return "answer." + key;
    }
  }

  /** The form; {@code area} in the patient's language, empty where it is not known yet. */
  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IntakeForm(
      PatientView patient,
      Form form,
      List<Asked> questions,
      List<Option> choices,
      String language,
      String area,
      boolean spanish)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IntakeDone(PatientView patient, String language, boolean spanish)
      implements TemplateInstance {}

  @GET
  public TemplateInstance start(@PathParam("patient") String patient) {
    PatientView view = patients.byId(Ids.of(patient, "patient"));
    return start(
        view,
        Form.empty()
            .prefill("language", view.language().equals("es") ? "es" : "en")
            .prefill("means", "screen"));
  }

  @POST
  @Path("form")
  public Response open(@PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = patients.byId(Ids.of(patient, "patient"));
    Form form = Form.of(typed);
    if (form.has("muscle") && muscles.find(form.value("muscle")).isEmpty()) {
      form.wrong("muscle", "Choose a muscle of the list, or leave it open.");
      return PatientPages.answer(422, start(view, form));
    }
    form.prefill("answeredBy", view.guardianName() == null ? view.name() : view.guardianName());
    return PatientPages.answer(200, form(view, form));
  }

  @POST
  public Response save(@PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = patients.byId(Ids.of(patient, "patient"));
    Form form = Form.of(typed);
    try {
      Means means = form.read("means", Means::of, one -> true, "Choose paper or screen.");
      Side side = form.read("side", Side::of, one -> true, "Choose a side, or leave it open.");
      Map<String, Answer> answers = new HashMap<>();
      String muscle = form.has("muscle") ? form.value("muscle") : null;
      for (Question question : intakes.questionsFor(muscle)) {
        Answer answer =
            form.read("answer." + question.key(), Answer::of, one -> true, "Choose an answer.");
        if (answer != null) {
          answers.put(question.key(), answer);
        }
      }
      form.throwIfWrong();
      intakes.answer(
          new NewIntake(
              view.id(),
              muscle,
              side,
              form.value("language"),
              form.value("answeredBy"),
              means,
              answers,
              null,
              null));
      return means == Means.SCREEN
          ? PatientPages.answer(200, new IntakeDone(view, form.value("language"), spanish(form)))
          : PatientPages.see(view.id(), "intake");
    } catch (Refusal refusal) {
      return PatientPages.answer(422, form(view, form.ok() ? form.refused(refusal) : form));
    }
  }

  private IntakeStart start(PatientView patient, Form form) {
    return new IntakeStart(
        patient,
        form,
        Choices.muscles(muscles),
        Choices.SIDES,
        List.of(new Option("en", "English"), new Option("es", "Español")),
        List.of(
            new Option("screen", "the patient answers on this screen"),
            new Option("paper", "typed in from paper")));
  }

  private IntakeForm form(PatientView patient, Form form) {
    String muscle = form.has("muscle") ? form.value("muscle") : null;
    String language = spanish(form) ? "es" : "en";
    return new IntakeForm(
        patient,
        form,
        intakes.questionsFor(muscle).stream()
            .map(question -> new Asked(question.key(), question.patientWords(language)))
            .toList(),
        spanish(form) ? SPANISH : ENGLISH,
        language,
        area(form, language),
        spanish(form));
  }

  private String area(Form form, String language) {
    return muscles
        .find(form.value("muscle"))
        .map(
            muscle -> {
              String side =
                  Choices.SIDES.stream().anyMatch(one -> one.value().equals(form.value("side")))
                      ? ", " + Side.of(form.value("side")).words(language)
                      : "";
              return muscle.words(language) + side;
            })
        .orElse("");
  }

  private static List<Option> choices(String no, String yes, String notSure) {
    return List.of(
        new Option(Answer.NO.word(), no),
        new Option(Answer.YES.word(), yes),
        new Option(Answer.NOT_SURE.word(), notSure));
  }

  private static boolean spanish(Form form) {
    return form.value("language").equals("es");
  }
}
