package clinic.stimshelf.program;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Units at home on which the version in force is not set yet. The last setting that was confirmed
 * stays valid until a therapist sets the new one and confirms it.
 */
@ApplicationScoped
public class SettingGaps {
  @Inject EntityManager em;

  /**
   * What is to be set.
   *
   * @param version the version in force
   * @param setting as that version names it, or {@code null}
   * @param holds the last version confirmed on this unit, or {@code null} if there is none
   * @param holdsSetting as it was confirmed
   */
  public record Gap(int version, String setting, Integer holds, String holdsSetting) {

    /** As a sentence. */
    public String words() {
      return "Version "
          + version
          + " is not set on the unit yet."
          + (holds == null
              ? ""
              : " Until a therapist sets and confirms it, version "
                  + holds
                  + " stays valid"
                  + (holdsSetting == null ? "." : ": " + holdsSetting + "."));
    }
  }

  /** Gaps of units by program; a program whose unit holds the version in force is absent. */
  @Transactional
  public Map<Long, Gap> of(Map<Long, Long> unitOfProgram) {
    Map<Long, Gap> gaps = new HashMap<>();
    if (unitOfProgram.isEmpty()) {
      return gaps;
    }
    List<Object[]> inForce =
        em.createQuery(
                "select p.id, v.number, v.settingText from Program p join ProgramVersion v on"
                    + " v.program = p and v.number = p.signedNumber where p.id in :ids and"
                    + " p.state = :signed",
                Object[].class)
            .setParameter("ids", unitOfProgram.keySet())
            .setParameter("signed", ProgramState.SIGNED)
            .getResultList();
    Map<Long, SettingConfirmed> last = new HashMap<>();
    em.createQuery(
            "select s from SettingConfirmed s where s.program.id in :ids order by s.confirmedAt,"
                + " s.id",
            SettingConfirmed.class)
        .setParameter("ids", unitOfProgram.keySet())
        .getResultList()
        .forEach(
            row -> {
              if (row.unitId.equals(unitOfProgram.get(row.program.id))) {
                last.put(row.program.id, row);
              }
            });
    for (Object[] row : inForce) {
      Long id = (Long) row[0];
      int version = (Integer) row[1];
      SettingConfirmed seen = last.get(id);
      if (seen == null || seen.versionNumber != version) {
        gaps.put(
            id,
            new Gap(
                version,
                (String) row[2],
                seen == null ? null : seen.versionNumber,
                seen == null ? null : seen.settingText));
      }
    }
    return gaps;
  }
}
