package clinic.stimshelf.remind;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.ApplicationScoped;
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
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.function.BiConsumer;

/** What patients are told: what waits, what left, what did not arrive, and what is to come. */
@Path("/messages")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class MessagePages {
  @Inject MessageBoard board;
  @Inject ReminderBook book;
  @Inject Senders senders;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record MessageList(
      MessageBoard.View view,
      boolean mail,
      boolean text,
      boolean manager,
      List<Reason> refused,
      ZoneId zone,
      LocalDate today)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LetterPaper(MessageBoard.Letter letter) implements TemplateInstance {}

  /** Its place in the navigation. */
  @ApplicationScoped
  static class MessagesWay implements Way {
    @Override
    public int order() {
      return 25;
    }

    @Override
    public String label() {
      return "Messages";
    }

    @Override
    public String href() {
      return "/messages";
    }

    @Override
    public Set<String> roles() {
      return Set.of(Roles.FRONT_DESK, Roles.MANAGER);
    }
  }

  @GET
  public TemplateInstance list() {
    return page(List.of());
  }

  /** A letter, to be printed. */
  @GET
  @Path("{id}/letter")
  public TemplateInstance letter(@PathParam("id") String id) {
    return new LetterPaper(board.letter(Ids.of(id, "letter")));
  }

  /** A mail that was taken came back. */
  @POST
  @Path("{id}/bounced")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response bounced(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return settled(id, typed, board::bounced);
  }

  /** Somebody told the patient in another way. */
  @POST
  @Path("{id}/told")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response told(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return settled(id, typed, board::told);
  }

  private Response settled(
      String id, MultivaluedMap<String, String> typed, BiConsumer<Long, String> how) {
    try {
      Form form = Form.of(typed);
      String words = form.optionalText("note", "The note", 300);
      form.throwIfWrong();
      how.accept(Ids.of(id, "message"), words);
      return Response.seeOther(URI.create("/messages")).build();
    } catch (Refusal refusal) {
      return Response.status(422)
          .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
          .entity(page(refusal.reasons()).render())
          .build();
    }
  }

  private TemplateInstance page(List<Reason> refused) {
    Long here = signedIn.locationOr(null);
    return new MessageList(
        board.at(here),
        senders.mail(),
        senders.text(),
        signedIn.has(Roles.MANAGER),
        refused,
        locations.zone(here),
        locations.today(here));
  }
}
