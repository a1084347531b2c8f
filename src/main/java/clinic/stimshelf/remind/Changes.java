package clinic.stimshelf.remind;

import clinic.stimshelf.appointments.AppointmentChanged;
import clinic.stimshelf.appointments.ComingVisits;
import clinic.stimshelf.loans.LoanChanged;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.location.ClosuresChanged;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientChanged;
import clinic.stimshelf.program.ProgramChanged;
import clinic.stimshelf.program.Programs;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Hears what changed, and has the reminders follow within the same transaction. A program's change
 * moves its loan, which is heard of again, so that it does not matter who hears first.
 */
@ApplicationScoped
class Changes {
  private static final int AT_ONCE = 100;

  @Inject Plan plan;
  @Inject Loans loans;
  @Inject ComingVisits visits;
  @Inject Programs programs;
  @Inject Locations locations;
  @Inject Reminders rows;

  void loan(@Observes LoanChanged change) {
    plan.sync(List.of(change.patientId()));
  }

  void appointment(@Observes AppointmentChanged change) {
    plan.sync(List.of(change.patientId()));
  }

  void patient(@Observes PatientChanged change) {
    plan.sync(List.of(change.patientId()));
  }

  void program(@Observes ProgramChanged change) {
    plan.sync(List.of(programs.facts(change.programId()).patientId()));
  }

  void closures(@Observes ClosuresChanged change) {
    plan.sync(concerned(List.of(change.locationId())));
  }

  /** Settings, the ladder's file and the course of days change what is wanted, too. */
  @Scheduled(
      every = "1h",
      delayed = "30s",
      identity = "reminders-follow",
      concurrentExecution = Scheduled.ConcurrentExecution.SKIP)
  @ActivateRequestContext
  void everything() {
    List<Long> all =
        QuarkusTransaction.requiringNew()
            .call(
                () ->
                    List.copyOf(
                        concerned(locations.all().stream().map(LocationView::id).toList())));
    for (int from = 0; from < all.size(); from += AT_ONCE) {
      List<Long> some = all.subList(from, Math.min(from + AT_ONCE, all.size()));
      QuarkusTransaction.requiringNew().run(() -> plan.sync(some));
    }
  }

  private Collection<Long> concerned(List<Long> locationIds) {
    Set<Long> ids = new LinkedHashSet<>();
    if (!locationIds.isEmpty()) {
      ids.addAll(loans.borrowers(locationIds));
      ids.addAll(visits.expected(locationIds));
      ids.addAll(
          rows.getEntityManager()
              .createQuery(
                  "select distinct r.patientId from Reminder r where r.locationId in :at and"
                      + " r.state = :waiting",
                  Long.class)
              .setParameter("at", locationIds)
              .setParameter("waiting", ReminderState.WAITING)
              .getResultList());
    }
    return ids;
  }
}
