package clinic.stimshelf.shelf;

import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;

/** Tells the browser's printer how large a page of a stock is; a page may not say it itself. */
@Path("/label-stock")
class LabelStockPages {
  @Inject TagStock stock;

  @GET
  @Path("{key}.css")
  @Produces("text/css")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public String pageRule(@PathParam("key") String key) {
    return stock.of(key).pageRule() + "\n";
  }
}
