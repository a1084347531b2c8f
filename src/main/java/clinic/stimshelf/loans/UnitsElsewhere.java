package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Units that stand ready at another location, where nobody waits for them. */
@ApplicationScoped
class UnitsElsewhere {
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject LoanRequests requests;

  /** A unit and the name of its place. */
  record Spare(UnitView unit, String place) {}

  /**
   * One of each other location of the person asking that has more than it needs: what stands where
   * they don't work is not theirs to see or to move.
   *
   * @param suitable units of a location, by its number
   */
  List<Spare> ready(Long locationId, Function<Long, List<UnitView>> suitable) {
    List<Spare> spare = new ArrayList<>();
    for (LocationView place : locations.all()) {
      if (!place.id().equals(locationId) && signedIn.mayActAt(place.id())) {
        List<UnitView> ready =
            suitable.apply(place.id()).stream()
                .filter(unit -> unit.state() == UnitState.READY && !unit.testDue())
                .toList();
        if (!ready.isEmpty()
            && ready.size()
                > requests.count(
                    "locationId = ?1 and openProgramId is not null and unitId is null and channels"
                        + " <= ?2",
                    place.id(),
                    ready.get(0).channels())) {
          spare.add(new Spare(ready.get(0), place.name()));
        }
      }
    }
    return spare;
  }
}
