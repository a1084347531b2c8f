package clinic.stimshelf.web;

import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import jakarta.inject.Inject;
import jakarta.ws.rs.NotAllowedException;
import jakarta.ws.rs.NotFoundException;
import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import org.jboss.logging.Logger;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;

/** Turns every failure into problem+json under /api and into a page elsewhere. */
class Failures {
  private static final Logger LOG = Logger.getLogger(Failures.class);

  @Inject UriInfo uri;

  @ServerExceptionMapper
  Response refused(Refusal refusal) {
    return answer(422, "Refused", "The rules stand against this.", refusal.reasons());
  }

  @ServerExceptionMapper
  Response inUse(InUse inUse) {
    return answer(409, "In use", inUse.getMessage(), List.of());
  }

  @ServerExceptionMapper
  Response stale(Stale stale) {
    return answer(412, "Changed meanwhile", stale.getMessage(), List.of());
  }

  @ServerExceptionMapper
  Response malformed(Malformed malformed) {
    return answer(400, "Not readable", malformed.getMessage(), malformed.reasons());
  }

  @ServerExceptionMapper
  Response notFound(NotFound notFound) {
    return answer(404, "Not found", notFound.getMessage(), List.of());
  }

  @ServerExceptionMapper
  Response nothingYet(NothingYet nothing) {
    return uri.getPath().startsWith("/api")
        ? notFound(nothing)
        : Response.ok(ErrorPage.of(nothing), MediaType.TEXT_HTML_TYPE.withCharset("UTF-8")).build();
  }

  @ServerExceptionMapper
  Response noSuchPage(NotFoundException noSuchPage) {
    return answer(404, "Not found", "There is no page or call with this address.", List.of());
  }

  @ServerExceptionMapper
  Response notAllowed(NotAllowedException notAllowed) {
    return answer(405, "Not possible", "This address does not take such a call.", List.of());
  }

  /** Takes the place of a mapper that comes with the JSON library and answers in its own words. */
  @ServerExceptionMapper
  Response notThatShape(MismatchedInputException unfit) {
    return answer(
        400,
        "Not readable",
        JsonFaults.words(unfit),
        List.of(new Reason(JsonFaults.field(unfit), JsonFaults.words(unfit), null)));
  }

  @ServerExceptionMapper
  Response other(WebApplicationException failure) {
    int status = failure.getResponse().getStatus();
    if (status == 400 && failure.getCause() != null) {
      return answer(400, "Not readable", JsonFaults.words(failure.getCause()), List.of());
    }
    if (status < 400) {
      return failure.getResponse();
    }
    return answer(status, "Not possible", "The call was not accepted.", List.of());
  }

  /** The unforeseen. The page shows a number only; the log has the rest. */
  @ServerExceptionMapper
  Response broken(Throwable failure) {
    String number = UUID.randomUUID().toString().substring(0, 8);
    LOG.errorf(failure, "Failure %s", number);
    return answer(
        500,
        "Something broke",
        "Nothing was changed. Try again; if it stays so, tell whoever looks after the program: "
            + "failure "
            + number
            + ".",
        List.of());
  }

  private Response answer(int status, String title, String detail, List<Reason> reasons) {
    if (uri.getPath().startsWith("/api")) {
      return Response.status(status)
          .type(Problem.MEDIA_TYPE)
          .entity(Problem.of(status, title, detail, reasons))
          .build();
    }
    return Response.status(status)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(ErrorPage.of(status, title, detail, reasons))
        .build();
  }
}
