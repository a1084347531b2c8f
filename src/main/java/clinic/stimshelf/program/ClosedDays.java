package clinic.stimshelf.program;

import clinic.stimshelf.location.ClosuresChanged;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;

/** Moves due days off a day that was closed, and back where it opens again. */
@ApplicationScoped
class ClosedDays {
  @Inject ProgramRows rows;
  @Inject Programs programs;
  @Inject Derivation derivation;
  @Inject Locations locations;

  void look(@Observes ClosuresChanged closures) {
    Long location = closures.locationId();
    for (Program program :
        rows.list(
            "select p from Program p join p.versions v where p.locationId = ?1 and p.state = ?2"
                + " and v.number = p.signedNumber and v.dueOn >= ?3",
            location,
            ProgramState.SIGNED,
            locations.today(location))) {
      if (derivation.dueMoved(program, program.signed())) {
        programs.rederive(program, "due day moved", null);
      }
    }
  }
}
