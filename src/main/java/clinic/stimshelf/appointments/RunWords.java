package clinic.stimshelf.appointments;

import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.calc.plan.VisitRun;
import clinic.stimshelf.web.Days;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** Why a run is the best one, in the order in which runs are compared. */
final class RunWords {
  private RunWords() {}

  static List<String> why(
      VisitRun<Instant> run, RunWish wish, StaffView preferred, boolean nearestOnly) {
    List<String> why = new ArrayList<>();
    int found = run.visits().size();
    if (found == 0) {
      return List.of(
          "Nothing is free up to "
              + Days.shortly(wish.horizon())
              + ". Take another room, another first day or fewer channels.");
    }
    why.add(
        found == wish.visits()
            ? "All " + found + " that are asked for fit."
            : found
                + " of "
                + wish.visits()
                + " fit up to "
                + Days.shortly(wish.horizon())
                + "; no other choice of free times holds more.");
    why.add(
        "The last is on "
            + Days.shortly(run.visits().get(found - 1).start().toLocalDate())
            + "; none of as many ends earlier.");
    if (preferred != null) {
      why.add(
          run.withPreferred()
              + " of "
              + found
              + " with "
              + preferred.name()
              + ", as many as can be.");
    }
    why.add(
        run.therapists() == 1
            ? "One therapist sees the patient every time."
            : run.therapists() + " therapists; fewer would not do.");
    why.add(
        run.distance() == 0
            ? "Each is at the wished time."
            : "Together they are "
                + run.distance()
                + " minutes away from the wished time, as few as can be.");
    if (nearestOnly) {
      why.add(
          "There are very many free times, so on each day only those near the wished time were"
              + " compared.");
    }
    return why;
  }
}
