package clinic.stimshelf.access;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;

/** Begins and ends what a browser's cookie stands for. */
@ApplicationScoped
class SignIn {
  @Inject Passwords passwords;

  @Inject Sessions sessions;

  @Inject Staff staff;

  @Inject SignedIn signedIn;

  @Inject Trail trail;

  @Inject EventTimes times;

  /**
   * Signs a person in with a new identifier; the browser's session before it ends.
   *
   * @param before the browser's cookie until now, may be {@code null}
   * @return the identifier for the cookie
   * @throws NotLetIn if name and password don't go together, or too many attempts failed
   */
  String begin(String username, String password, String address, String before) {
    StaffView proven = passwords.verify(username, password, address);
    return QuarkusTransaction.requiringNew().call(() -> begin(proven, before));
  }

  /** The same for somebody who proved otherwise who they are. */
  @Transactional
  String begin(StaffView proven, String before) {
    Long shown =
        before == null ? null : sessions.find(before, true).map(Presence::locationId).orElse(null);
    if (before != null) {
      sessions.end(before);
    }
    signedIn.become(proven);
    trail.record(Subject.of("staff", proven.id()), "signed in", times.now(), null, null);
    return sessions.begin(
        staff.member(proven.id()),
        shown != null && proven.locationIds().contains(shown)
            ? shown
            : Presence.first(proven.locationIds()));
  }

  /** Ends the session on the server; the cookie opens nothing any more. */
  @Transactional
  void end(String token) {
    if (token != null) {
      if (signedIn.anybody()) {
        trail.record(
            Subject.of("staff", signedIn.staffId()), "signed out", times.now(), null, null);
      }
      sessions.end(token);
    }
  }
}
