package clinic.stimshelf.recall;

import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Finds out with what and to whom an incident happened. */
@ApplicationScoped
class IncidentScene {
  @Inject UnitTags tags;
  @Inject Loans loans;
  @Inject Patients patients;
  @Inject EntityManager em;

  /** What was found; each may be {@code null}. */
  record Found(UnitView unit, LoanView loan, PatientView patient) {}

  /** By the unit, the patient or both; what does not fit goes to the refusals. */
  Found find(String unitTag, String chartNumber, Instant at, Refusals refusals) {
    UnitView unit = null;
    LoanView loan = null;
    PatientView patient = null;
    if (!Said.anything(unitTag) && !Said.anything(chartNumber)) {
      refusals.add(
          "unitTag",
          "With which unit, or to whom, did it happen?",
          "Name at least one of the two.");
    }
    if (Said.anything(chartNumber)) {
      patient = patients.byChart(chartNumber.strip()).orElse(null);
      if (patient == null) {
        refusals.add(
            "chartNumber",
            "No patient of yours has the chart number “" + chartNumber.strip() + "”.");
      }
    }
    if (Said.anything(unitTag)) {
      try {
        unit = tags.unit(unitTag.strip());
      } catch (NotFound none) {
        refusals.add("unitTag", none.getMessage());
      }
    } else if (patient != null) {
      loan =
          loans.ofPatient(patient.id()).stream()
              .filter(one -> one.state() != LoanState.VOID && covers(one, at))
              .findFirst()
              .orElse(null);
      unit = loan == null ? null : tags.unit(loan.unitTag());
    }
    if (unit != null && loan == null) {
      Object[] use = useAt(unit.id(), at).orElse(null);
      if (use != null && use[0] == UseKind.LOAN) {
        loan = loans.byId((Long) use[1]);
      }
      Long who =
          use == null
              ? null
              : loan != null ? Long.valueOf(loan.patientId()) : treated((Long) use[1]);
      if (patient == null && who != null) {
        patient = patients.byId(who);
      } else if (patient != null && who != null && !patient.id().equals(who)) {
        // The unit was with somebody else; the loan is theirs and is none of this patient's.
        loan = null;
        refusals.add(
            "chartNumber",
            "At that time another patient had unit " + unit.tag() + ".",
            "Check the time, the tag and the chart number.");
      }
    }
    return new Found(unit, loan, patient);
  }

  private static boolean covers(LoanView loan, Instant at) {
    return !loan.checkedOutAt().isAfter(at)
        && (loan.returnedAt() == null || !loan.returnedAt().isBefore(at));
  }

  private Optional<Object[]> useAt(Long unitId, Instant at) {
    return em.createQuery(
            "select u.useKind, u.subjectId from UnitUseRow u where u.unitId = :unit and u.voided ="
                + " false and u.startsAt <= :at and (u.endedAt is null or u.endedAt >= :at) order by"
                + " u.startsAt desc",
            Object[].class)
        .setParameter("unit", unitId)
        .setParameter("at", at)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  private Long treated(Long appointmentId) {
    List<Long> who =
        em.createQuery("select a.patientId from Appointment a where a.id = :id", Long.class)
            .setParameter("id", appointmentId)
            .getResultList();
    return who.isEmpty() ? null : who.get(0);
  }
}
