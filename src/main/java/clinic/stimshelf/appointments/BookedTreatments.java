package clinic.stimshelf.appointments;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.DatedDemand;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.pads.Treatments;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;

/** Treatments that will use pads in the clinic. Which pads and how many, the cupboard knows. */
@ApplicationScoped
class BookedTreatments implements DatedDemand {
  private static final Set<AppointmentState> HELD =
      Set.of(AppointmentState.DONE, AppointmentState.PARTIAL);

  @Inject EntityManager em;
  @Inject Locations locations;
  @Inject Clock clock;

  @Override
  public List<DatedPacks> dated(Long locationId, LocalDate from, LocalDate to) {
    return List.of();
  }

  @Override
  @Transactional
  public Treatments treatments(Long locationId, LocalDate since, LocalDate to) {
    ZoneId zone = locations.zone(locationId);
    Instant now = clock.instant();
    List<LocalDate> booked =
        em
            .createQuery(
                "select a.startsAt from Appointment a where a.locationId = :at and a.startsAt >="
                    + " :now and a.startsAt < :end and a.state = :booked and a.treatmentStartsAt is"
                    + " not null order by a.startsAt",
                Instant.class)
            .setParameter("at", locationId)
            .setParameter("now", now)
            .setParameter("end", to.plusDays(1).atStartOfDay(zone).toInstant())
            .setParameter("booked", AppointmentState.BOOKED)
            .getResultList()
            .stream()
            .map(start -> LocalDate.ofInstant(start, zone))
            .toList();
    int held = 0;
    int missed = 0;
    for (Object[] row :
        em.createQuery(
                "select a.state, count(a) from Appointment a where a.locationId = :at and"
                    + " a.startsAt >= :since and a.startsAt < :now and a.treatmentStartsAt is not"
                    + " null group by a.state",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("since", since.atStartOfDay(zone).toInstant())
            .setParameter("now", now)
            .getResultList()) {
      int count = ((Long) row[1]).intValue();
      held += HELD.contains((AppointmentState) row[0]) ? count : 0;
      missed += row[0] == AppointmentState.NO_SHOW ? count : 0;
    }
    return new Treatments(booked, held, missed);
  }
}
