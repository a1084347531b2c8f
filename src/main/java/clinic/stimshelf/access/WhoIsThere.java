package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Frame;
import io.quarkus.runtime.BlockingOperationControl;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** The frame of a page for whoever is signed in. */
@RequestScoped
class WhoIsThere implements Frame {
  @Inject SignedIn signedIn;

  @Inject Locations locations;

  @Inject Clock clock;

  @Inject AccessConfig config;

  @ConfigProperty(name = "stimshelf.demo", defaultValue = "false")
  boolean demo;

  private List<LocationView> mine;

  @Override
  public boolean signedIn() {
    return presence() != null;
  }

  @Override
  public String person() {
    Presence presence = presence();
    return presence == null ? "" : presence.staff().name();
  }

  @Override
  public String part() {
    Presence presence = presence();
    if (presence == null) {
      return "";
    }
    Credential credential = presence.staff().credential();
    String role = presence.role().replace('-', ' ');
    return credential == Credential.NONE ? role : role + ", " + credential.label();
  }

  @Override
  public boolean has(String role) {
    Presence presence = presence();
    return presence != null && presence.role().equals(role);
  }

  @Override
  public String place() {
    LocationView shown = shown();
    return shown == null ? "" : shown.name();
  }

  @Override
  public String placeCode() {
    LocationView shown = shown();
    return shown == null ? "" : shown.code();
  }

  @Override
  public List<Place> places() {
    return mine().stream().map(one -> new Place(one.code(), one.name())).toList();
  }

  @Override
  public String day() {
    LocationView shown = shown();
    return shown == null ? "" : Days.inWords(clock.instant().atZone(shown.zone()).toLocalDate());
  }

  @Override
  public String csrf() {
    Presence presence = presence();
    return presence == null ? "" : presence.formToken();
  }

  @Override
  public boolean privacy() {
    return signedIn() && signedIn.privacy();
  }

  @Override
  public boolean demo() {
    return demo;
  }

  @Override
  public long secondsLeft() {
    Presence presence = presence();
    return presence == null || presence.signsOutAt() == null
        ? 0
        : Math.max(1, Duration.between(clock.instant(), presence.signsOutAt()).toSeconds());
  }

  @Override
  public long secondsWarning() {
    return config.warning().toSeconds();
  }

  private LocationView shown() {
    Presence presence = presence();
    return presence == null
        ? null
        : mine().stream()
            .filter(one -> one.id().equals(presence.locationId()))
            .findFirst()
            .orElse(null);
  }

  private List<LocationView> mine() {
    if (mine == null) {
      Presence presence = presence();
      mine =
          presence == null
              ? List.of()
              : locations.all().stream()
                  .filter(one -> presence.locationIds().contains(one.id()))
                  .toList();
    }
    return mine;
  }

  /** An error page may be drawn where nothing may be asked of the database; it names nobody. */
  private Presence presence() {
    return BlockingOperationControl.isBlockingAllowed() ? signedIn.presence() : null;
  }
}
