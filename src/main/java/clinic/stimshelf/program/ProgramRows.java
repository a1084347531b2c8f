package clinic.stimshelf.program;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.util.List;

@ApplicationScoped
class ProgramRows implements PanacheRepository<Program> {

  /** Signed programs with a session on that day or later, by number; ended ones are not read. */
  List<Program> running(Long locationId, LocalDate day) {
    return list(
        "select distinct p from Program p join fetch p.versions where p.locationId = ?1"
            + " and p.state = ?2 and p.id in (select v.program.id from ProgramVersion v"
            + " where v.lastSessionOn >= ?3 and v.number = v.program.signedNumber) order by p.id",
        locationId,
        ProgramState.SIGNED,
        day);
  }

  /** Programs never signed whose latest version starts within these days, by number. */
  List<Program> written(Long locationId, LocalDate from, LocalDate to) {
    return list(
        "select distinct p from Program p join fetch p.versions where p.locationId = ?1"
            + " and p.state = ?2 and p.signedNumber is null and p.id in (select v.program.id"
            + " from ProgramVersion v where v.startsOn between ?3 and ?4"
            + " and v.number = v.program.latestNumber) order by p.id",
        locationId,
        ProgramState.DRAFT,
        from,
        to);
  }
}
