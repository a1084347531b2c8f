package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Every pad type at every location of the person who looks. */
@Path("/pads/all")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class AllPadsPages {
  @Inject Reorders reorders;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  /** Pad types down, locations across. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record AllPads(String headline, List<String> places, List<Row> rows)
      implements TemplateInstance {}

  /** A pad type. */
  record Row(String code, String name, List<Cell> cells) {}

  /** What a location has of it. */
  record Cell(String place, PadPosition position) {}

  @GET
  public TemplateInstance all() {
    List<String> places = new ArrayList<>();
    Map<String, Row> rows = new LinkedHashMap<>();
    int due = 0;
    for (Long place : signedIn.locationIds()) {
      String name = locations.byId(place).name();
      places.add(name);
      for (PadPosition position : reorders.positions(place)) {
        rows.computeIfAbsent(
                position.code(), code -> new Row(code, position.name(), new ArrayList<>()))
            .cells()
            .add(new Cell(name, position));
        due += position.orderQuantity() > 0 ? 1 : 0;
      }
    }
    return new AllPads(
        due == 0 ? "Nothing to order anywhere" : due + (due == 1 ? " order" : " orders") + " due",
        places,
        List.copyOf(rows.values()));
  }
}
