package clinic.stimshelf.access;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationAdded;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;

/** How a staff member comes to an account and to a password nobody else knows. */
@ApplicationScoped
public class Accounts {
  @Inject Staff staff;

  @Inject StaffMembers members;

  @Inject Passwords passwords;

  @Inject OneTimeCodes codes;

  @Inject Sessions sessions;

  @Inject Locations locations;

  @Inject SignedIn signedIn;

  @Inject Trail trail;

  @Inject EventTimes times;

  /**
   * A code with which the person sets a password, to be told or handed over; an earlier one stops
   * working.
   *
   * @throws Refusal if there is no account to set one for
   */
  @Transactional
  public String newCode(Long staffId) {
    StaffMember member = staff.member(staffId);
    if (member.username == null || !member.active) {
      throw new Refusal(
          "username",
          member.name + " has no account that is in use.",
          "Enter a sign-in name and save first.");
    }
    String code = codes.make(staffId);
    trail.record(Subject.of("staff", staffId), "one-time code given", times.now(), null, null);
    return code;
  }

  /**
   * Sets a password with a one-time code, which is used up by it. All open sessions of the account
   * end.
   *
   * @return whose password it now is
   * @throws Refusal if the code doesn't work (any more) or the password is not taken
   */
  @Transactional
  public StaffView setPassword(String code, String password) {
    OneTimeCode row =
        codes.find(code).filter(found -> found.staffId != null).orElseThrow(Accounts::noSuchCode);
    StaffMember member = staff.member(row.staffId);
    if (!member.active) {
      throw noSuchCode();
    }
    passwords.put(member, "password", password);
    if (!codes.use(row)) {
      throw noSuchCode();
    }
    sessions.endAll(member.id);
    trail.record(Subject.of("staff", member.id), "password set", times.now(), null, null);
    return member.view();
  }

  /**
   * Changes the acting person's own password; their other sessions end.
   *
   * @throws Refusal if the new one is not taken
   * @throws NotLetIn if the present one is wrong
   */
  void change(String present, String wanted, String address) {
    StaffView me = signedIn.staff();
    passwords.verify(me.username(), present, address);
    put(me, wanted);
  }

  @Transactional
  void put(StaffView me, String wanted) {
    passwords.put(staff.member(me.id()), "password", wanted);
    sessions.endOthers(me.id(), signedIn.presence().sessionId());
    trail.record(Subject.of("staff", me.id()), "password changed", times.now(), null, null);
  }

  /** Whether nobody could sign in yet to give anybody else an account. */
  @Transactional
  public boolean noneYet() {
    return members.count("role = ?1 and active and passwordHash is not null", Roles.MANAGER) == 0;
  }

  /**
   * Makes the first manager's account, at every location there is, with the code that was printed
   * where the program runs.
   *
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public StaffView first(String code, String name, String username, String password) {
    OneTimeCode row =
        codes.find(code).filter(found -> found.staffId == null).orElseThrow(Accounts::noSuchCode);
    if (!noneYet()) {
      throw new Refusal(
          "code", "There is a manager's account already.", "That manager makes the others.");
    }
    Refusals refusals = new Refusals();
    if (Staff.account(username).isEmpty()) {
      refusals.add("username", "Choose the name you sign in with.");
    }
    passwords.check(username, name, "password", password, refusals);
    refusals.throwIfAny();
    Long id =
        staff.add(
            new NewStaff(
                Staff.account(username),
                name,
                null,
                Credential.NONE,
                null,
                null,
                Roles.MANAGER,
                username,
                locations.all().stream().map(LocationView::id).toList()),
            false);
    StaffMember member = staff.member(id);
    passwords.put(member, "password", password);
    if (!codes.use(row)) {
      throw noSuchCode();
    }
    return member.view();
  }

  /** Whoever adds a location works there. */
  void added(@Observes LocationAdded added) {
    if (signedIn.anybody()) {
      staff.grantLocation(signedIn.staffId(), added.locationId());
    }
  }

  private static Refusal noSuchCode() {
    return new Refusal(
        "code",
        "This code was used already, has run out, or is mistyped.",
        "Ask for a new one; the first one of all is printed where the program is started.");
  }
}
