package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.remind.ReminderBook;
import clinic.stimshelf.remind.ReminderView;
import clinic.stimshelf.remind.Route;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Whom the clinic calls or writes to, because no message could do it. */
@Path("/call-list")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class CallListPages {
  private static final int MOST = 100;
  private static final Map<String, String> DONE =
      Map.of(
          "call", "The call is logged.",
          "done", "That is off the list.");

  @Inject ReminderBook book;
  @Inject CallTasks tasks;
  @Inject Contacts contacts;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** Somebody to reach, about everything that one call settles. */
  record Line(
      ReminderView reminder,
      List<String> about,
      PatientView patient,
      boolean minor,
      String since,
      ContactView last,
      boolean open) {}

  @CheckedTemplate(basePath = "desk", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CallList(
      List<Line> lines,
      List<CallTasks.Task> tasks,
      List<Option> outcomes,
      String done,
      Form form,
      List<Reason> refused)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list(@QueryParam("done") String done) {
    return page(DONE.getOrDefault(done == null ? "" : done, ""), null, Form.empty(), List.of());
  }

  @POST
  @Path("{id}/call")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response call(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    ReminderView reminder = book.byId(Ids.of(id, "entry"));
    Form form = Form.of(typed);
    try {
      LocalDate promised = form.optionalDay("promisedOn", "The promised day");
      String note = form.optionalText("note", "The note", 500);
      form.throwIfWrong();
      contacts.log(
          new NewContact(
              Ids.optional(reminder.loanId(), "loan"),
              Long.valueOf(reminder.patientId()),
              ContactOutcome.find(form.value("outcome")).orElse(null),
              promised,
              note,
              null,
              null));
      return Response.seeOther(URI.create("/call-list?done=call")).build();
    } catch (Refusal refusal) {
      return refused(reminder.id(), form.ok() ? form.refused(refusal) : form, refusal);
    }
  }

  @POST
  @Path("{id}/done")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response done(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      String note = form.optionalText("note", "The note", 300);
      form.throwIfWrong();
      book.done(Ids.of(id, "entry"), note);
      return Response.seeOther(URI.create("/call-list?done=done")).build();
    } catch (Refusal refusal) {
      return refused(id, form, refusal);
    }
  }

  private Response refused(String id, Form form, Refusal refusal) {
    return Response.status(422)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page("", id, form, refusal.reasons()).render())
        .build();
  }

  private TemplateInstance page(String done, String open, Form form, List<Reason> refused) {
    Long here = signedIn.locationOr(null);
    LocalDate today = locations.today(here);
    List<ReminderView> due = book.forPeople(here, MOST);
    Map<List<Object>, List<ReminderView>> together = new LinkedHashMap<>();
    for (ReminderView one : due) {
      boolean call = one.channel() == Route.CALL;
      together
          .computeIfAbsent(
              List.of(one.channel(), call ? one.patientId() : one.id()), key -> new ArrayList<>())
          .add(one);
    }
    Map<Long, PatientView> who =
        patients.byIds(
            due.stream().map(one -> Long.valueOf(one.patientId())).collect(Collectors.toSet()));
    Map<Long, ContactView> last =
        contacts.lastAbout(
            due.stream()
                .filter(one -> one.loanId() != null)
                .map(one -> Long.valueOf(one.loanId()))
                .collect(Collectors.toSet()));
    return new CallList(
        together.values().stream()
            .map(
                some -> {
                  ReminderView one =
                      some.stream()
                          .filter(row -> row.loanId() != null)
                          .findFirst()
                          .orElse(some.get(0));
                  PatientView patient = who.get(Long.valueOf(one.patientId()));
                  return new Line(
                      one,
                      some.stream().map(CallListPages::about).distinct().toList(),
                      patient,
                      patient.minorOn(today),
                      since(some.get(0).day(), today),
                      one.loanId() == null ? null : last.get(Long.valueOf(one.loanId())),
                      some.stream().anyMatch(row -> row.id().equals(open)));
                })
            .toList(),
        tasks.at(here),
        Arrays.stream(ContactOutcome.values())
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        done,
        form,
        refused);
  }

  private static String about(ReminderView one) {
    return one.appointmentId() == null
        ? one.words()
        : one.words() + " on " + Days.shortly(one.about());
  }

  private static String since(LocalDate day, LocalDate today) {
    long days = ChronoUnit.DAYS.between(day, today);
    return days <= 0 ? "today" : days == 1 ? "yesterday" : days + " days ago";
  }
}
