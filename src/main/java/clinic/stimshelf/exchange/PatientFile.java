package clinic.stimshelf.exchange;

import clinic.stimshelf.people.NewPatient;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.ReachBy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;

/** Patients by chart number. */
@ApplicationScoped
class PatientFile implements FileFormat {
  private static final Column<String> CHART = Column.text("chart_number", 32).required();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<String> NAME = Column.text("name", 120).required();
  private static final Column<LocalDate> BORN = Column.day("birth_date").required();
  private static final Column<String> GUARDIAN = Column.text("guardian_name", 120);
  private static final Column<String> RELATION = Column.text("guardian_relation", 60);
  private static final Column<String> LANGUAGE = Column.text("language", 16);
  private static final Column<Boolean> INTERPRETER = Column.yesNo("interpreter");
  private static final Column<ReachBy> REACH_BY = Column.word("reach_by", ReachBy.class).required();
  private static final Column<String> PHONE = Column.text("phone", 40);
  private static final Column<String> EMAIL = Column.text("email", 254);
  private static final Column<String> ADDRESS = Column.text("address", 300);
  private static final Column<Boolean> REMINDERS = Column.yesNo("reminders_allowed");
  private static final Column<LocalDate> DIED_ON = Column.day("died_on");

  @Inject Patients patients;

  @Override
  public String what() {
    return "patients";
  }

  @Override
  public String title() {
    return "Patients, how to reach them, guardian and language";
  }

  @Override
  public int order() {
    return 50;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        CHART,
        LOCATION,
        NAME,
        BORN,
        GUARDIAN,
        RELATION,
        LANGUAGE,
        INTERPRETER,
        REACH_BY,
        PHONE,
        EMAIL,
        ADDRESS,
        REMINDERS,
        DIED_ON);
  }

  @Override
  public String name(Row row) {
    return row.text(CHART);
  }

  @Override
  public String taken() {
    return "select chart_number from patient";
  }

  @Override
  public void enter(Row row) {
    patients.enter(
        new NewPatient(
            null,
            row.get(LOCATION),
            row.get(CHART),
            row.get(NAME),
            row.get(BORN),
            row.get(GUARDIAN),
            row.get(RELATION),
            row.get(LANGUAGE),
            row.or(INTERPRETER, false),
            row.get(REACH_BY),
            row.get(PHONE),
            row.get(EMAIL),
            row.get(ADDRESS),
            row.or(REMINDERS, false),
            row.get(DIED_ON)));
  }

  @Override
  public String export() {
    return "select p.chart_number, l.code as location, p.name, p.birth_date, p.guardian_name,"
        + " p.guardian_relation, p.language, p.interpreter, lower(p.reach_by) as reach_by, p.phone,"
        + " p.email, p.address, p.reminders_allowed, p.died_on from patient p"
        + " join location l on l.id = p.location_id where p.location_id in (:locations)"
        + " order by p.chart_number";
  }
}
