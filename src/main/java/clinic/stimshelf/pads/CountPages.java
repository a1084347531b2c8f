package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;

/** A physical count: what lies there, lot by lot. The ledger's number is not shown before. */
@Path("/pads/count")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class CountPages {
  @Inject StockKeeping keeping;
  @Inject PadLots lots;
  @Inject CountRounds rounds;
  @Inject SignedIn signedIn;
  @Inject Shown shown;

  /** The form. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CountPage(
      Form form, String code, List<Option> types, List<Line> lots, String done, Long going)
      implements TemplateInstance {}

  /** A lot and the name of its field. */
  record Line(LotStock lot, String field) {}

  @GET
  public TemplateInstance blank(
      @QueryParam("code") String code,
      @QueryParam("lots") String counted,
      @QueryParam("differences") String differences,
      @QueryParam("moved") String moved) {
    String done =
        counted == null
            ? null
            : Ids.of(counted, "count")
                + " lots counted, "
                + Ids.of(differences, "count")
                + " of them differed."
                + (moved == null
                    ? ""
                    : " "
                        + Ids.of(moved, "count")
                        + " changed while it went on and fit all the same.");
    return page(Form.empty(), code, done);
  }

  @POST
  public Response count(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    String code = form.has("code") ? form.value("code") : null;
    try {
      Long here = signedIn.locationOr(null);
      Happened happened = shown.happened(form, here);
      List<CountedLot> lines = new ArrayList<>();
      for (Line line : here(code)) {
        LotStock lot = line.lot();
        Integer packs = form.optionalWhole(line.field(), "Packs of lot " + lot.lot(), 0, 100_000);
        if (packs != null) {
          lines.add(new CountedLot(Long.valueOf(lot.id()), packs));
        }
      }
      String reason = form.optionalText("reason", "The reason", 300);
      form.throwIfWrong();
      List<Long> made = keeping.count(here, lines, reason, happened);
      return Shown.to(
          "/pads/count?lots="
              + lines.size()
              + "&differences="
              + made.size()
              + (code == null ? "" : "&code=" + code));
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), code, null));
    }
  }

  private List<Line> here(String code) {
    return lots.list(code, List.of(signedIn.locationOr(null))).stream()
        .map(lot -> new Line(lot, "lot-" + lot.id()))
        .toList();
  }

  private TemplateInstance page(Form form, String code, String done) {
    String wanted = code == null || code.isBlank() ? null : code;
    return new CountPage(
        form.prefill("code", wanted),
        wanted,
        shown.types(),
        here(wanted),
        done,
        rounds.going(signedIn.locationOr(null)));
  }
}
