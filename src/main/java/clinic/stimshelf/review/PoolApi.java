package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Units owned against requests. */
@Path("/api/pool")
@Produces(MediaType.APPLICATION_JSON)
class PoolApi {
  @Inject Pool pool;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  /**
   * @param mustWait null where units are not above the load: the line would grow without end
   */
  record PointJson(int units, double turnedAway, Double mustWait) {}

  /**
   * A kind of unit at a location.
   *
   * @param requestsPerWeek loans begun and requests waiting, over up to 26 weeks
   * @param waiting of these, those that wait now
   * @param meanDaysAway from check out to check in, 0 where nothing was lent
   * @param unitsForTarget fewest units that turn away no more than 5 of 100
   */
  record KindJson(
      String location,
      String kind,
      double requestsPerWeek,
      int waiting,
      double meanDaysAway,
      double turnaroundDays,
      int unitsOwned,
      double offeredLoad,
      double turnedAway,
      Double mustWait,
      Double meanWaitDays,
      int unitsForTarget,
      List<PointJson> curve) {}

  record PoolJson(List<KindJson> items) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public PoolJson pool(@QueryParam("location") String location) {
    List<KindJson> items = new ArrayList<>();
    for (Long at : signedIn.locationsOr(location)) {
      String code = locations.byId(at).code();
      pool.figures(at).forEach(kind -> items.add(json(code, kind)));
    }
    return new PoolJson(items);
  }

  private static KindJson json(String location, PoolView.OfKind of) {
    return new KindJson(
        location,
        of.lending().kind(),
        of.lending().requestsPerWeek(),
        of.lending().waiting(),
        of.lending().meanDaysAway(),
        of.turnaroundDays(),
        of.lending().units(),
        of.pool().offeredLoad(),
        of.pool().turnedAway(),
        orNull(of.pool().mustWait()),
        orNull(of.pool().meanWaitDays()),
        of.pool().unitsForTarget(),
        of.pool().curve().stream()
            .map(one -> new PointJson(one.units(), one.turnedAway(), orNull(one.mustWait())))
            .toList());
  }

  private static Double orNull(OptionalDouble figure) {
    return figure.isPresent() ? (Double) figure.getAsDouble() : null;
  }
}
