package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.SpotView;
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
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A count spot by spot: choose the spot, scan what lies there, end it. */
@Path("/pads/counts")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class CountRoundPages {
  @Inject CountRounds rounds;
  @Inject TreatmentDrawers drawers;
  @Inject PackScans scans;
  @Inject ShelfKeeping shelf;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** The count. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CountRound(CountRounds.RoundView round, LocationView place, Form form, List<Option> spots)
      implements TemplateInstance {}

  @POST
  public Response start() {
    return Shown.to("/pads/counts/" + rounds.start(signedIn.locationOr(null)));
  }

  @GET
  @Path("{id}")
  public TemplateInstance show(@PathParam("id") String id, @QueryParam("spot") String spot) {
    return page(Ids.of(id, "count"), Form.empty().prefill("spot", spot));
  }

  @POST
  @Path("{id}/found")
  public Response found(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id,
        typed,
        (round, form) -> {
          int packs = form.has("packs") ? form.whole("packs", "Packs", 0, 100_000) : 1;
          ScannedPack pack = form.has("scan") ? scans.read(form.value("scan")) : null;
          if (pack != null && pack.lotId() == null) {
            form.wrong(
                "scan",
                pack.problems().isEmpty()
                    ? "No lot “" + pack.lot() + "” is known. Receive these packs first."
                    : String.join(" ", pack.problems()));
          }
          form.throwIfWrong();
          rounds.found(round, form.value("spot"), pack == null ? null : pack.lotId(), packs);
        });
  }

  @POST
  @Path("{id}/lines/{line}")
  public Response correct(
      @PathParam("id") String id,
      @PathParam("line") String line,
      MultivaluedMap<String, String> typed) {
    return changed(
        id,
        typed,
        (round, form) -> {
          int packs = form.whole("line-" + line, "Packs", 0, 100_000);
          form.throwIfWrong();
          rounds.correct(round, Ids.of(line, "line"), packs);
        });
  }

  @POST
  @Path("{id}/end")
  public Response end(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Long round = mine(id);
    Form form = Form.of(typed);
    try {
      Long place = rounds.byId(round).locationId();
      if (form.ticked("abandon")) {
        rounds.abandon(round, shown.happened(Form.empty(), place));
        return Shown.to("/pads/count");
      }
      String reason = form.optionalText("reason", "The reason", 300);
      form.throwIfWrong();
      CountRounds.Result result =
          rounds.close(round, form.ticked("all"), reason, shown.happened(Form.empty(), place));
      return Shown.to(
          "/pads/count?lots="
              + result.lots()
              + "&differences="
              + result.corrected()
              + "&moved="
              + result.movedMeanwhile());
    } catch (Refusal refusal) {
      return Shown.refused(page(round, Shown.again(form, refusal)));
    }
  }

  private interface Change {
    void make(Long round, Form form);
  }

  private Response changed(String id, MultivaluedMap<String, String> typed, Change change) {
    Long round = mine(id);
    Form form = Form.of(typed);
    try {
      change.make(round, form);
      return Shown.to(
          "/pads/counts/"
              + round
              + (form.has("spot")
                  ? "?spot=" + URLEncoder.encode(form.value("spot"), StandardCharsets.UTF_8)
                  : ""));
    } catch (Refusal refusal) {
      return Shown.refused(page(round, Shown.again(form, refusal)));
    }
  }

  private Long mine(String id) {
    Long round = Ids.of(id, "count");
    signedIn.requireLocation(rounds.byId(round).locationId());
    return round;
  }

  private TemplateInstance page(Long id, Form form) {
    CountRounds.RoundView round = rounds.byId(id);
    signedIn.requireLocation(round.locationId());
    form.prefill("packs", 1);
    Set<String> spots = new LinkedHashSet<>();
    shelf.spots(round.locationId()).stream()
        .filter(SpotView::active)
        .map(SpotView::name)
        .forEach(spots::add);
    drawers.at(round.locationId()).stream()
        .map(TreatmentDrawers.DrawerView::name)
        .forEach(spots::add);
    spots.add("cupboard");
    return new CountRound(
        round,
        locations.byId(round.locationId()),
        form,
        spots.stream().map(spot -> new Option(spot, spot)).toList());
  }
}
