package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;

/** Calling about a loan, and noting what was said. */
@Path("/calls/{loan}")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class CallPages {
  @Inject Contacts contacts;
  @Inject Loans loans;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "desk", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Call(
      LoanView loan,
      PatientView patient,
      List<ContactView> before,
      List<Option> outcomes,
      Form form,
      List<Reason> refused,
      boolean minor,
      LocalDate today,
      ZoneId zone)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@PathParam("loan") String loan) {
    return page(Ids.of(loan, "loan"), Form.empty(), List.of());
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response log(@PathParam("loan") String id, MultivaluedMap<String, String> typed) {
    Long loan = Ids.of(id, "loan");
    Form form = Form.of(typed);
    try {
      LocalDate promised = form.optionalDay("promisedOn", "The promised day");
      LocalDateTime happened = form.optionalDayAndTime("happenedAt", "The time of the call");
      form.throwIfWrong();
      contacts.log(
          new NewContact(
              loan,
              null,
              ContactOutcome.find(form.value("outcome")).orElse(null),
              promised,
              form.optionalText("note", "The note", 500),
              happened == null ? null : happened.atZone(zone(loan)).toInstant(),
              form.optionalText("lateReason", "The reason", 500)));
      return Response.seeOther(
              URI.create(
                  signedIn.has(Roles.THERAPIST)
                      ? "/needs-me"
                      : FrontDeskPages.HOME + "?done=contact"))
          .build();
    } catch (Refusal refusal) {
      Form marked = form.ok() ? form.refused(refusal) : form;
      return Response.ok(page(loan, marked, refusal.reasons())).build();
    }
  }

  private TemplateInstance page(Long loanId, Form form, List<Reason> refused) {
    LoanView loan = loans.byId(loanId);
    Long place = locations.byCode(loan.location()).id();
    signedIn.requireLocation(place);
    PatientView patient = patients.byId(Long.valueOf(loan.patientId()));
    LocalDate today = locations.today(place);
    return new Call(
        loan,
        patient,
        contacts.aboutLoan(loanId),
        Arrays.stream(ContactOutcome.values())
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        form,
        refused,
        patient.minorOn(today),
        today,
        locations.zone(place));
  }

  private ZoneId zone(Long loanId) {
    return locations.byCode(loans.byId(loanId).location()).zone();
  }
}
