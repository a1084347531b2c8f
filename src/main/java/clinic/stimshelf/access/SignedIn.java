package clinic.stimshelf.access;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.NothingYet;
import clinic.stimshelf.web.Roles;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Supplier;

/**
 * Who acts. Within a call from outside it is the person who signed in, with their role and their
 * locations. Outside of any call (a timer, the loading of a file at start) it is the program
 * itself, which may act everywhere but is no person, so it cannot sign anything.
 */
@RequestScoped
public class SignedIn implements Actor {
  @Inject SecurityIdentity identity;

  @Inject CurrentVertxRequest request;

  @Inject Staff staff;

  @Inject Locations locations;

  private Presence acting;
  private Presence found;
  private Long patientAt;

  /** Whether a person stands behind this. */
  public boolean anybody() {
    return presence() != null;
  }

  /**
   * The person.
   *
   * @throws IllegalStateException if nobody is signed in
   */
  public StaffView staff() {
    Presence presence = presence();
    if (presence == null) {
      throw new IllegalStateException("Nobody is signed in here.");
    }
    return presence.staff();
  }

  @Override
  public Long staffId() {
    Presence presence = presence();
    return presence == null ? null : presence.staff().id();
  }

  @Override
  public String name() {
    if (patientAt != null) {
      return "the patient, by their link";
    }
    Presence presence = presence();
    if (presence == null) {
      return itself() ? "Stimshelf" : "nobody signed in";
    }
    return presence.through().isEmpty()
        ? presence.staff().name()
        : presence.staff().name() + " (" + presence.through() + ")";
  }

  /** Whether the person holds the role; the program itself holds each. */
  public boolean has(String role) {
    Presence presence = presence();
    return presence == null ? itself() : presence.role().equals(role);
  }

  /** The location whose matters the pages show; {@code null} where there is none. */
  public Long locationId() {
    Presence presence = presence();
    return presence == null ? null : presence.locationId();
  }

  /** Where the person may act. */
  public List<Long> locationIds() {
    Presence presence = presence();
    if (patientAt != null) {
      return List.of(patientAt);
    }
    if (presence == null) {
      return itself() ? locations.all().stream().map(LocationView::id).toList() : List.of();
    }
    return presence.locationIds();
  }

  /** Whether the person may act at the location. */
  public boolean mayActAt(Long locationId) {
    if (patientAt != null) {
      return patientAt.equals(locationId);
    }
    Presence presence = presence();
    return presence == null ? itself() : presence.locationIds().contains(locationId);
  }

  /**
   * Lets nobody see or change what belongs to a location they don't work at.
   *
   * @throws NotFound as if there were no such thing, so that its existence isn't told
   */
  public void requireLocation(Long locationId) {
    if (!mayActAt(locationId)) {
      throw new NotFound("There is nothing of that name at your locations.");
    }
  }

  /**
   * The location with the code, or the one the pages show where the code is left out.
   *
   * @throws NotFound if there is none such where the person may act
   */
  public Long locationOr(String code) {
    if (code == null || code.isBlank()) {
      Long current = locationId();
      if (current != null) {
        return current;
      }
      List<Long> mine = locationIds();
      if (mine.isEmpty()) {
        throw nowhereYet();
      }
      return mine.get(0);
    }
    Long wanted = locations.byCode(code.strip()).id();
    requireLocation(wanted);
    return wanted;
  }

  private NothingYet nowhereYet() {
    return has(Roles.MANAGER)
        ? new NothingYet(
            "You work at no location yet. Add the first one with its hours; then this page fills.",
            "/your-clinic",
            "Take the first steps")
        : new NothingYet(
            "You work at no location yet. A manager names your locations under Settings, Staff.",
            null,
            null);
  }

  /**
   * For lists: the one location with the code, or all of the person's where it is left out.
   *
   * @throws NotFound if there is none such where the person may act
   */
  public List<Long> locationsOr(String code) {
    return code == null || code.isBlank() ? locationIds() : List.of(locationOr(code));
  }

  /** Whether the person may sign programs and accept precautions on that day. */
  public boolean mayLicensedPt(LocalDate day) {
    Presence presence = presence();
    return presence != null && presence.staff().mayLicensedPt(day);
  }

  /** Whether names are blanked because the screen faces the waiting room. */
  public boolean privacy() {
    Presence presence = presence();
    return presence != null && presence.privacy();
  }

  /**
   * Does work of the program itself in a staff member's name, for instance what a file says they
   * did. Not possible within a call from outside.
   *
   * @throws IllegalStateException within such a call
   */
  public <T> T actAs(Long staffId, Supplier<T> work) {
    if (!itself()) {
      throw new IllegalStateException("A call from outside acts in its own name only.");
    }
    Presence before = acting;
    acting = Presence.of(staff.byId(staffId));
    try {
      return work.get();
    } finally {
      acting = before;
    }
  }

  /**
   * Does what a patient asks for on their own page, which their link opened: at that location, in
   * nobody's name but theirs, whoever else may be signed in on this browser.
   */
  public <T> T asPatient(Long locationId, Supplier<T> work) {
    patientAt = locationId;
    try {
      return work.get();
    } finally {
      patientAt = null;
    }
  }

  /** For the moment of signing in itself: what is recorded bears the name just proven. */
  void become(StaffView proven) {
    acting = Presence.of(proven);
  }

  Presence presence() {
    if (patientAt != null) {
      return null;
    }
    if (acting != null) {
      return acting;
    }
    if (found == null && !identity.isAnonymous()) {
      found = identity.getAttribute(Presence.KEY);
      if (found == null) {
        found = staff.byUsername(identity.getPrincipal().getName()).map(Presence::of).orElse(null);
      }
    }
    return found;
  }

  private boolean itself() {
    return patientAt == null && request.getCurrent() == null && identity.isAnonymous();
  }
}
