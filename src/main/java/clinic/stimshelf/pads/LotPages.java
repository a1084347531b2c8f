package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Paging;
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
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.Map;

/** One lot: where it is, who has it, whether it may leave. */
@Path("/pads/lots")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class LotPages {
  @Inject PadLots lots;
  @Inject PadCatalog catalog;
  @Inject StockKeeping keeping;
  @Inject MovementLog log;
  @Inject Patients patients;
  @Inject Trail trail;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** Somebody who has pads of it; {@code patient} is {@code null} where they can't be looked up. */
  record Who(PatientView patient, PadHolder holder) {}

  /** The lot. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LotPage(
      Form form,
      LocationView place,
      PadTypeView type,
      LotStock lot,
      List<LotStock.At> drawers,
      int here,
      boolean expired,
      boolean held,
      List<Who> holders,
      List<MovementView> lines,
      List<TrailEntry> trail,
      boolean mayRelease)
      implements TemplateInstance {}

  @GET
  @Path("{id}")
  public TemplateInstance one(@PathParam("id") String id) {
    return page(Ids.of(id, "lot"), Form.empty());
  }

  @POST
  @Path("{id}/quarantine")
  public Response quarantine(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id,
        typed,
        (lot, form, happened) ->
            lots.quarantine(lot, form.value("reason"), form.ticked("recalled"), happened));
  }

  @POST
  @Path("{id}/release")
  @RolesAllowed(Roles.MANAGER)
  public Response release(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id, typed, (lot, form, happened) -> lots.release(lot, form.value("reason"), happened));
  }

  @POST
  @Path("{id}/discard")
  public Response discard(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id,
        typed,
        (lot, form, happened) -> {
          int packs = form.whole("packs", "Packs", 1, 100_000);
          form.throwIfWrong();
          keeping.discard(lot, signedIn.locationOr(null), packs, form.value("note"), happened);
        });
  }

  private interface Change {
    void make(Long lot, Form form, Happened happened);
  }

  private Response changed(String id, MultivaluedMap<String, String> typed, Change change) {
    Long lot = Ids.of(id, "lot");
    Form form = Form.of(typed);
    try {
      change.make(lot, form, shown.happened(form, signedIn.locationOr(null)));
      return Shown.to("/pads/lots/" + lot);
    } catch (Refusal refusal) {
      return Shown.refused(page(lot, Shown.again(form, refusal)));
    }
  }

  private TemplateInstance page(Long id, Form form) {
    Long here = signedIn.locationOr(null);
    LotStock lot = lots.byId(id, signedIn.locationIds());
    LocationView place = locations.byId(here);
    List<PadHolder> holders = lots.whoHas(id);
    Map<Long, PatientView> known =
        patients.byIds(holders.stream().map(PadHolder::patientId).toList());
    return new LotPage(
        form,
        place,
        catalog.byCode(lot.code()),
        lot,
        lots.inDrawers(id, signedIn.locationIds()),
        lot.heldAt().stream()
            .filter(at -> at.location().equals(place.code()))
            .mapToInt(LotStock.At::packs)
            .sum(),
        lot.expiresOn().isBefore(locations.today(here)),
        lot.state() != LotState.FREE,
        holders.stream().map(who -> new Who(known.get(who.patientId()), who)).toList(),
        log.list(
                new MovementLog.Wanted(signedIn.locationIds(), null, id, null, null, null, null),
                Paging.of(0, 50))
            .items(),
        signedIn.has(Roles.MANAGER) ? trail.of(Subject.of("pad-lot", id)) : List.of(),
        signedIn.has(Roles.MANAGER));
  }
}
