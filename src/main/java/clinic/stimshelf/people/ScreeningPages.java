package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.NewScreening.Confirmed;
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
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The therapist's screening: what the patient did not deny first, then the treated region, then the
 * rest. Nothing is chosen in advance, so that every answer is the therapist's.
 */
@Path("/patients/{patient}/screening")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.THERAPIST)
class ScreeningPages {
  @Inject PatientPages page;
  @Inject Screenings screenings;
  @Inject Intakes intakes;
  @Inject Patients patients;
  @Inject Muscles muscles;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /**
   * A question with what is known of it.
   *
   * @param said the patient's own answer, or {@code null}
   * @param last the answer of the screening before, or {@code null}
   * @param does what a yes does, in words
   */
  record Line(Question question, Answer said, Answer last, String does, boolean acceptable) {

    public boolean saidSomething() {
      return said != null && said != Answer.NO;
    }

    public String key() {
      return question.key();
    }

    public String answerField() {
      return "answer." + question.key();
    }

    public String noteField() {
      return "note." + question.key();
    }

    public String acceptanceField() {
      return "acceptance." + question.key();
    }

    /** The answers offered, none of them chosen. */
    public List<Option> choices() {
      List<Option> choices = new ArrayList<>();
      choices.add(new Option(Answer.NO.word(), "No"));
      choices.add(new Option(Answer.YES.word(), "Yes"));
      if (question.alternative() != null) {
        choices.add(new Option(Answer.YES_BUT.word(), question.alternative().answer()));
      }
      choices.add(new Option(Answer.NOT_SURE.word(), "Not sure"));
      return choices;
    }
  }

  /** A heading and its questions. */
  record Group(String heading, String words, List<Line> lines) {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScreeningArea(
      PatientView patient,
      Form form,
      List<Option> muscles,
      List<Option> sides,
      List<Screenings.Area> before)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScreeningForm(
      PatientView patient,
      Form form,
      Muscle muscle,
      Side side,
      String area,
      IntakeView intake,
      List<Group> groups,
      boolean pt)
      implements TemplateInstance {}

  @GET
  public TemplateInstance choose(@PathParam("patient") String patient) {
    return area(patients.byId(Ids.of(patient, "patient")), Form.empty());
  }

  /** By POST, so that no address says what is treated. */
  @POST
  @Path("area")
  public Response begin(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = patients.byId(Ids.of(patient, "patient"));
    Form form = Form.of(typed);
    return readArea(form)
        .map(side -> PatientPages.answer(200, form(view, form, side)))
        .orElseGet(() -> PatientPages.answer(422, area(view, form)));
  }

  @POST
  public Response save(@PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = patients.byId(Ids.of(patient, "patient"));
    Form form = Form.of(typed);
    Optional<Side> side = readArea(form);
    if (side.isEmpty()) {
      return PatientPages.answer(422, area(view, form));
    }
    try {
      screenings.screen(
          new NewScreening(view.id(), form.value("muscle"), side.get(), answers(form), null, null));
      return PatientPages.see(view.id(), "screened");
    } catch (Refusal refusal) {
      return PatientPages.answer(422, form(view, form.refused(refusal), side.get()));
    }
  }

  /** A licensed PT accepts a precaution on the patient's page. */
  @POST
  @Path("{id}/acceptance")
  public Response accept(
      @PathParam("patient") String patient,
      @PathParam("id") String screening,
      MultivaluedMap<String, String> typed) {
    Long id = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      screenings.accept(
          id, Ids.of(screening, "screening"), form.value("key"), form.value("reason"));
      return PatientPages.see(id, "accepted");
    } catch (Refusal refusal) {
      return page.again(id, form.refused(refusal));
    }
  }

  /** Something changed, so that what was screened no longer holds. */
  @POST
  @Path("outdated")
  public Response outdate(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    Long id = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      screenings.outdate(id, null, form.value("reason"));
      return PatientPages.see(id, "outdated");
    } catch (Refusal refusal) {
      return page.again(id, form.refused(refusal));
    }
  }

  private Optional<Side> readArea(Form form) {
    if (muscles.find(form.value("muscle")).isEmpty()) {
      form.wrong("muscle", "Choose the muscle to be treated.");
    }
    Side side = form.read("side", Side::of, one -> true, "Choose the side.");
    if (side == null && form.ok()) {
      form.wrong("side", "Choose the side.");
    }
    return form.ok() ? Optional.of(side) : Optional.empty();
  }

  private List<Confirmed> answers(Form form) {
    List<Confirmed> answers = new ArrayList<>();
    for (Question question : screenings.questionsFor(form.value("muscle"))) {
      String key = question.key();
      Answer answer = form.read("answer." + key, Answer::of, one -> true, "Choose an answer.");
      if (answer != null) {
        answers.add(
            new Confirmed(key, answer, form.value("note." + key), form.value("acceptance." + key)));
      }
    }
    return answers;
  }

  private ScreeningArea area(PatientView patient, Form form) {
    LocalDate today = locations.today(patient.locationId());
    return new ScreeningArea(
        patient,
        form,
        Choices.muscles(muscles),
        Choices.SIDES,
        screenings.areas(patient.id(), today));
  }

  private ScreeningForm form(PatientView patient, Form form, Side side) {
    Muscle muscle = muscles.muscle(form.value("muscle"));
    BodyRegion region = muscles.region(muscle.region());
    IntakeView intake = intakes.latest(patient.id(), region.key()).orElse(null);
    Map<String, Answer> said = intake == null ? Map.of() : intake.answers();
    Map<String, Answer> last =
        screenings.of(patient.id()).stream()
            .filter(one -> one.region().equals(region.key()) && one.side() == side)
            .findFirst()
            .map(
                one ->
                    one.answers().stream()
                        .collect(
                            Collectors.toMap(ScreeningView.Line::key, ScreeningView.Line::answer)))
            .orElse(Map.of());
    List<Line> exceptions = new ArrayList<>();
    List<Line> here = new ArrayList<>();
    List<Line> rest = new ArrayList<>();
    for (Question question : screenings.questionsFor(muscle.key())) {
      Line line = line(question, region, said.get(question.key()), last.get(question.key()));
      (line.saidSomething() ? exceptions : question.aboutTheRegion() ? here : rest).add(line);
    }
    List<Group> groups = new ArrayList<>();
    add(groups, "The patient did not say no", "Ask, look, then answer for yourself.", exceptions);
    add(groups, "About the " + region.words(side), "Look at the skin and the limb.", here);
    add(groups, "About the whole person", "", rest);
    return new ScreeningForm(
        patient,
        form,
        muscle,
        side,
        region.words(side),
        intake,
        groups,
        signedIn.mayLicensedPt(locations.today(patient.locationId())));
  }

  private static void add(List<Group> groups, String heading, String words, List<Line> lines) {
    if (!lines.isEmpty()) {
      groups.add(new Group(heading, words, lines));
    }
  }

  private static Line line(Question question, BodyRegion region, Answer said, Answer last) {
    Effect yes = question.effectOf(Answer.YES, region, true);
    boolean acceptable =
        yes == Effect.PRECAUTION
            || (question.alternative() != null
                && question.alternative().effect() == Effect.PRECAUTION);
    return new Line(question, said, last, does(yes), acceptable);
  }

  private static String does(Effect effect) {
    return switch (effect) {
      case CONTRAINDICATION -> "Yes blocks.";
      case HOLD -> "Yes holds until it is cleared.";
      case PRECAUTION -> "Yes needs a licensed PT's reason.";
      case INFORMATION -> "For information.";
    };
  }
}
