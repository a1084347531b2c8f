package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** The way from the demo to a clinic of one's own, and that clinic's first steps. */
@ApplicationScoped
class YourClinic {
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Holidays holidays;

  @ConfigProperty(name = "stimshelf.data", defaultValue = "data")
  String data;

  @ConfigProperty(name = ChosenClinic.DEMO, defaultValue = "false")
  boolean demo;

  boolean isDemo() {
    return demo;
  }

  /** Whether the next start opens the clinic's own data. */
  boolean chosen() {
    return Files.exists(ChosenClinic.marker(Path.of(data)));
  }

  Path folder() {
    return Path.of(data, ChosenClinic.OWN).toAbsolutePath().normalize();
  }

  /**
   * Makes the folder of the clinic's own data, which the next start opens. The demo stays where it
   * is.
   *
   * @throws Refusal if this is not the demo
   */
  void choose() {
    if (!demo) {
      throw new Refusal(null, "This is your own clinic already.");
    }
    Path marker = ChosenClinic.marker(Path.of(data));
    try {
      Files.createDirectories(marker.getParent());
      Files.writeString(
          marker,
          """
          Stimshelf opens the data in this folder, because somebody has set up their own clinic.
          To see the demo again, start with stimshelf.clinic=demo; the data here stay as they are.
          """);
    } catch (IOException e) {
      throw new UncheckedIOException("The folder " + marker.getParent() + " cannot be made", e);
    }
  }

  /** Holidays of the next year and a bit on which the location would otherwise be open. */
  @Transactional
  List<Holidays.Proposed> proposed(Long locationId) {
    signedIn.requireLocation(locationId);
    LocalDate today = locations.today(locationId);
    Set<LocalDate> entered =
        locations.closuresFrom(locationId, today).stream()
            .map(ClosureView::day)
            .collect(Collectors.toSet());
    return holidays.between(today, today.plusMonths(15)).stream()
        .filter(holiday -> !entered.contains(holiday.day()))
        .filter(
            holiday -> locations.weeklyHours(locationId).containsKey(holiday.day().getDayOfWeek()))
        .toList();
  }

  /** Closes the location on the holidays that were ticked; what was not proposed is left out. */
  @Transactional
  void close(Long locationId, Set<LocalDate> ticked) {
    proposed(locationId).stream()
        .filter(holiday -> ticked.contains(holiday.day()))
        .forEach(
            holiday ->
                locations.close(
                    locationId, new ClosureView(holiday.day(), null, null, holiday.name())));
  }
}
