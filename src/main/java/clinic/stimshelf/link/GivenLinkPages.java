package clinic.stimshelf.link;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.labels.LinkSquare;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.remind.PatientLinks;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.RawString;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;

/** Giving a patient the link to their page, and taking it back. A link is shown once. */
@Path("/patient-links/{loan}")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class GivenLinkPages {
  @Inject PatientLinks links;
  @Inject Loans loans;
  @Inject Patients patients;
  @Inject SignedIn signedIn;
  @Inject HttpServerRequest request;

  /**
   * The page.
   *
   * @param address the link just made, shown this once; {@code null} if none
   * @param square the same for a phone's camera
   */
  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record GivenLink(
      LoanView loan, PatientView patient, long standing, String address, RawString square)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@PathParam("loan") String loan) {
    return page(loan(loan), null);
  }

  @POST
  @Retried
  public Response make(@PathParam("loan") String id) {
    LoanView loan = loan(id);
    if (!loan.state().open()) {
      throw new Refusal(null, "The loan is over; its page would open nothing.");
    }
    String path = links.path(Long.valueOf(loan.id()));
    return Response.ok(
            page(loan, links.base().orElseGet(this::here) + path).render(),
            MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .build();
  }

  @POST
  @Path("revoked")
  @Retried
  public Response revoke(@PathParam("loan") String id) {
    LoanView loan = loan(id);
    links.revoke(Long.valueOf(loan.id()));
    return Response.seeOther(URI.create("/patient-links/" + loan.id())).build();
  }

  private TemplateInstance page(LoanView loan, String address) {
    Long patient = Long.valueOf(loan.patientId());
    return new GivenLink(
        loan,
        patients.byIds(List.of(patient)).get(patient),
        links.standing(Long.valueOf(loan.id())),
        address,
        address == null
            ? null
            : new RawString(LinkSquare.svg(address, "The link for the patient’s phone")));
  }

  private LoanView loan(String id) {
    Long loan = Ids.of(id, "loan");
    signedIn.requireLocation(loans.locationOf(loan));
    return loans.byId(loan);
  }

  private String here() {
    return request.scheme() + "://" + request.authority();
  }
}
