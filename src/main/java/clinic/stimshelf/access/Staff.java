package clinic.stimshelf.access;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** The people who work at the clinic: what they may sign, what they may do, where. */
@ApplicationScoped
public class Staff {
  /** Works in the demo clinic and nowhere else. */
  public static final String DEMO_PASSWORD = "demo-clinic-only";

  static final Set<String> ROLES = Set.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER);
  private static final Pattern REF = Pattern.compile("[A-Za-z0-9._-]{1,32}");
  private static final Pattern USERNAME = Pattern.compile("[a-z0-9._@-]{2,64}");

  @Inject StaffMembers members;

  @Inject Locations locations;

  @Inject Passwords passwords;

  @Inject Sessions sessions;

  @Inject SignedIn signedIn;

  @Inject Trail trail;

  @Inject EventTimes times;

  @ConfigProperty(name = "stimshelf.demo", defaultValue = "false")
  boolean demo;

  /**
   * @throws NotFound if there is no such staff member
   */
  @Transactional
  public StaffView byId(Long id) {
    return member(id).view();
  }

  /**
   * @throws NotFound if there is no such staff member
   */
  @Transactional
  public StaffView byRef(String ref) {
    return findByRef(ref).orElseThrow(() -> new NotFound("No staff member is called " + ref + "."));
  }

  @Transactional
  public Optional<StaffView> findByRef(String ref) {
    return members.find("ref", ref).firstResultOptional().map(StaffMember::view);
  }

  @Transactional
  public Optional<StaffView> byUsername(String username) {
    return members.find("username", account(username)).firstResultOptional().map(StaffMember::view);
  }

  /** Everybody, the active ones first, by name. */
  @Transactional
  public List<StaffView> all() {
    return views("from StaffMember s left join fetch s.locationIds order by s.active desc, s.name");
  }

  /** The active staff of a location, by name. */
  @Transactional
  public List<StaffView> at(Long locationId) {
    return views(
        "from StaffMember s left join fetch s.locationIds where s.active"
            + " and ?1 member of s.locationIds order by s.name",
        locationId);
  }

  /** The active staff of a location who treat: therapists by role, or PT and PTA by credential. */
  @Transactional
  public List<StaffView> therapistsAt(Long locationId) {
    return at(locationId).stream()
        .filter(
            one ->
                one.role().equals(Roles.THERAPIST)
                    || one.credential() == Credential.PT
                    || one.credential() == Credential.PTA)
        .toList();
  }

  /** Names by number, for lists. */
  @Transactional
  public Map<Long, String> names(Collection<Long> ids) {
    Set<Long> wanted = new HashSet<>(ids);
    wanted.remove(null);
    Map<Long, String> names = new HashMap<>();
    if (!wanted.isEmpty()) {
      members.list("id in ?1", wanted).forEach(member -> names.put(member.id, member.name));
    }
    return names;
  }

  /**
   * Adds a staff member.
   *
   * @return the new number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long add(NewStaff entry) {
    return add(entry, true);
  }

  /** Adds one, possibly at locations of which nobody could yet be a manager. */
  @Transactional
  Long add(NewStaff entry, boolean ownLocations) {
    check(null, entry, ownLocations);
    StaffMember member = new StaffMember();
    member.active = true;
    fill(member, entry);
    members.persistAndFlush(member);
    record(member, "added", null);
    return member.id;
  }

  /**
   * Changes a staff member.
   *
   * @param version as read; {@code null} to change whatever stands there
   * @throws Stale if somebody changed it meanwhile
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public StaffView change(Long id, Integer version, NewStaff entry) {
    StaffMember member = member(id);
    if (version != null && version != member.version) {
      throw new Stale(
          member.name + "’s entry was changed a moment ago. Look at it again, then change it.");
    }
    check(member, entry, true);
    StaffView before = member.view();
    fill(member, entry);
    if (!Objects.equals(before.username(), member.username) || !before.role().equals(member.role)) {
      sessions.endAll(member.id);
    }
    members.flush();
    record(member, "changed", before);
    return member.view();
  }

  /** Ends the account: no sign-in, no key, no open session from this moment on. */
  @Transactional
  public StaffView disable(Long id) {
    StaffMember member = member(id);
    if (member.active) {
      Refusals refusals = new Refusals();
      keepOneManager(member, refusals);
      refusals.throwIfAny();
      StaffView before = member.view();
      member.active = false;
      sessions.endAll(id);
      record(member, "disabled", before);
    }
    return member.view();
  }

  @Transactional
  public StaffView enable(Long id) {
    StaffMember member = member(id);
    if (!member.active) {
      StaffView before = member.view();
      member.active = true;
      record(member, "enabled", before);
    }
    return member.view();
  }

  /** Lets a staff member work at one more location; without effect where they already do. */
  @Transactional
  public void grantLocation(Long id, Long locationId) {
    StaffMember member = member(id);
    StaffView before = member.view();
    if (member.locationIds.add(locations.byId(locationId).id())) {
      record(member, "location added", before);
    }
  }

  /**
   * Makes the three accounts of the demo clinic, with the same published password, at all its
   * locations. Accounts that are there stay as they are.
   *
   * @throws IllegalStateException outside of the demo
   */
  @Transactional
  public void addDemoAccounts() {
    if (!demo) {
      throw new IllegalStateException("The demo's accounts exist in the demo only.");
    }
    List<Long> everywhere = locations.all().stream().map(LocationView::id).toList();
    demoAccount("frontdesk", "Frances Deskin", Credential.NONE, Roles.FRONT_DESK, everywhere);
    demoAccount("therapist", "Theo Rapp", Credential.PT, Roles.THERAPIST, everywhere);
    demoAccount("manager", "Mara Nagel", Credential.NONE, Roles.MANAGER, everywhere);
  }

  private void demoAccount(
      String username, String name, Credential credential, String role, List<Long> everywhere) {
    StaffMember member = members.find("username", username).firstResult();
    if (member == null) {
      member = members.find("ref", username).firstResult();
    }
    if (member == null) {
      Long id =
          add(
              new NewStaff(
                  username, name, null, credential, null, null, role, username, everywhere));
      member = member(id);
    }
    if (member.passwordHash == null) {
      member.username = username;
      passwords.putDemoPassword(member);
    }
  }

  StaffMember member(Long id) {
    StaffMember member = id == null ? null : members.findById(id);
    if (member == null) {
      throw new NotFound("There is no such staff member.");
    }
    return member;
  }

  static String account(String username) {
    return username == null ? "" : username.strip().toLowerCase(Locale.ROOT);
  }

  private List<StaffView> views(String query, Object... values) {
    return members.find(query, values).stream().map(StaffMember::view).toList();
  }

  private void fill(StaffMember member, NewStaff entry) {
    member.ref = entry.ref().strip();
    member.name = entry.name().strip();
    member.initials = initials(entry);
    member.credential = entry.credential() == null ? Credential.NONE : entry.credential();
    member.licenseNumber = blankToNull(entry.licenseNumber());
    member.licenseEndsOn = entry.licenseEndsOn();
    member.role = entry.role();
    member.username = blankToNull(account(entry.username()));
    member.locationIds.retainAll(entry.locationIds());
    member.locationIds.addAll(entry.locationIds());
  }

  private void check(StaffMember member, NewStaff entry, boolean ownLocations) {
    Refusals refusals = new Refusals();
    String ref = entry.ref() == null ? "" : entry.ref().strip();
    if (!REF.matcher(ref).matches()) {
      refusals.add(
          "ref", "The short name takes 1 to 32 letters, digits, dots, dashes or underscores.");
    } else if (taken("ref", ref, member)) {
      refusals.add("ref", "Somebody else has the short name " + ref + ".", "Take another one.");
    }
    String name = entry.name() == null ? "" : entry.name().strip();
    if (name.isEmpty() || name.length() > 120) {
      refusals.add("name", "The name takes 1 to 120 characters.");
    }
    if (entry.initials() != null && entry.initials().strip().length() > 8) {
      refusals.add("initials", "Initials take at most 8 characters.");
    }
    if (entry.role() == null || !ROLES.contains(entry.role())) {
      refusals.add("role", "The role is one of front-desk, therapist, manager.");
    }
    if (entry.licenseNumber() != null && entry.licenseNumber().strip().length() > 40) {
      refusals.add("licenseNumber", "The license number takes at most 40 characters.");
    }
    String username = account(entry.username());
    if (!username.isEmpty() && !USERNAME.matcher(username).matches()) {
      refusals.add(
          "username",
          "A sign-in name takes 2 to 64 small letters, digits, dots, dashes, underscores or @.");
    } else if (!username.isEmpty() && taken("username", username, member)) {
      refusals.add("username", "Somebody else signs in as " + username + ".", "Take another one.");
    }
    if (ownLocations) {
      checkLocations(member, entry, refusals);
    }
    if (member != null && member.active && !Roles.MANAGER.equals(entry.role())) {
      keepOneManager(member, refusals);
    }
    refusals.throwIfAny();
  }

  private void checkLocations(StaffMember member, NewStaff entry, Refusals refusals) {
    Set<Long> known = new HashSet<>(signedIn.locationIds());
    if (member != null) {
      known.addAll(member.locationIds);
    }
    if (entry.locationIds() == null || !known.containsAll(entry.locationIds())) {
      refusals.add("locations", "You can name those locations only at which you work yourself.");
    }
  }

  /** A clinic without a manager who can sign in could not be helped from within. */
  private void keepOneManager(StaffMember member, Refusals refusals) {
    if (Roles.MANAGER.equals(member.role)
        && member.passwordHash != null
        && members.count(
                "role = ?1 and active and passwordHash is not null and id <> ?2",
                Roles.MANAGER,
                member.id)
            == 0) {
      refusals.add(
          "role",
          member.name + " is the only manager who can sign in.",
          "Make another manager first.");
    }
  }

  private boolean taken(String field, String value, StaffMember member) {
    return members.count(field + " = ?1 and id <> ?2", value, member == null ? -1L : member.id) > 0;
  }

  private void record(StaffMember member, String action, StaffView before) {
    trail.record(Subject.of("staff", member.id), action, times.now(), before, member.view());
  }

  private static String initials(NewStaff entry) {
    if (entry.initials() != null && !entry.initials().isBlank()) {
      return entry.initials().strip();
    }
    StringBuilder initials = new StringBuilder();
    for (String part : entry.name().strip().split("\\s+", -1)) {
      if (initials.length() < 3) {
        initials.appendCodePoint(part.codePointAt(0));
      }
    }
    return initials.toString().toUpperCase(Locale.ROOT);
  }

  private static String blankToNull(String text) {
    return text == null || text.isBlank() ? null : text.strip();
  }
}
