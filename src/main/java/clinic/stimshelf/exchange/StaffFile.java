package clinic.stimshelf.exchange;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.NewStaff;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;

/** Who works here. Passwords are never in a file: a new account gets a one-time code. */
@ApplicationScoped
class StaffFile implements FileFormat {
  private static final Column<String> REF = Column.code("ref").required();
  private static final Column<String> NAME = Column.text("name", 120).required();
  private static final Column<String> INITIALS = Column.text("initials", 8);
  private static final Column<Credential> CREDENTIAL =
      Column.word("credential", Credential.class).required();
  private static final Column<String> LICENSE_NUMBER = Column.text("license_number", 40);
  private static final Column<LocalDate> LICENSE_ENDS_ON = Column.day("license_ends_on");
  private static final Column<String> ROLE =
      Column.word("role", List.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER)).required();
  private static final Column<String> USERNAME = Column.text("username", 64);
  private static final Column<List<Long>> LOCATIONS = Column.keys("locations", Key.LOCATION);
  private static final Column<Boolean> ACTIVE = Column.yesNo("active");

  @Inject Staff staff;

  @Override
  public String what() {
    return "staff";
  }

  @Override
  public String title() {
    return "Staff with credentials, roles and locations";
  }

  @Override
  public int order() {
    return 40;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        NAME,
        INITIALS,
        CREDENTIAL,
        LICENSE_NUMBER,
        LICENSE_ENDS_ON,
        ROLE,
        USERNAME,
        LOCATIONS,
        ACTIVE);
  }

  @Override
  public String taken() {
    return "select ref from staff";
  }

  @Override
  public void enter(Row row) {
    Long id =
        staff.add(
            new NewStaff(
                row.get(REF),
                row.get(NAME),
                row.get(INITIALS),
                row.get(CREDENTIAL),
                row.get(LICENSE_NUMBER),
                row.get(LICENSE_ENDS_ON),
                row.get(ROLE),
                row.get(USERNAME),
                row.or(LOCATIONS, List.of())));
    if (!row.or(ACTIVE, true)) {
      staff.disable(id);
    }
  }

  @Override
  public String export() {
    return "select s.ref, s.name, s.initials, lower(replace(s.credential, '_', '-')) as credential,"
        + " s.license_number, s.license_ends_on, s.role, s.username,"
        + " (select string_agg(l.code, ' | ' order by l.code) from staff_location w"
        + " join location l on l.id = w.location_id where w.staff_id = s.id) as locations,"
        + " s.active from staff s where exists (select 1 from staff_location w"
        + " where w.staff_id = s.id and w.location_id in (:locations)) order by s.ref";
  }
}
