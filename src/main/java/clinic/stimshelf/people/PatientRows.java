package clinic.stimshelf.people;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.FlushModeType;
import java.util.Optional;

@ApplicationScoped
class PatientRows implements PanacheRepository<Patient> {

  /** Number of the patient whose column holds the value; does not write what is pending. */
  Optional<Long> number(String column, String value) {
    return getEntityManager()
        .createQuery("select p.id from Patient p where p." + column + " = :value", Long.class)
        .setParameter("value", value)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultStream()
        .findFirst();
  }
}
