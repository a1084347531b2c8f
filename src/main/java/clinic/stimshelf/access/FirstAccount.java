package clinic.stimshelf.access;

import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.time.Duration;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * What the start settles about accounts: that the demo with its published passwords is reachable
 * from this machine only, and how the first manager gets in. Codes go to the console and never to a
 * log file.
 */
@ApplicationScoped
class FirstAccount {
  @Inject Accounts accounts;

  @Inject OneTimeCodes codes;

  @Inject Staff staff;

  @Inject AccessConfig config;

  @ConfigProperty(name = "stimshelf.demo", defaultValue = "false")
  boolean demo;

  @ConfigProperty(name = "quarkus.http.host")
  String host;

  @ActivateRequestContext
  void start(@Observes @Priority(5000) StartupEvent started) {
    keepDemoHome(demo, host);
    config.recover().ifPresent(username -> recover(username, System.out));
    if (!demo && accounts.noneYet()) {
      print(codes.make(null), System.out);
    }
  }

  /**
   * @throws IllegalStateException if the demo would listen beyond this machine
   */
  static void keepDemoHome(boolean demo, String host) {
    if (demo && !Wire.isLoopback(host)) {
      throw new IllegalStateException(
          "The demo has published passwords, so it listens on this machine only, not on "
              + host
              + ". Take quarkus.http.host=127.0.0.1, or set up your own clinic.");
    }
  }

  void print(String code, PrintStream console) {
    console.printf(
        "%nNobody can sign in yet. Open /first-account and enter this code within %s:%n%n   "
            + " %s%n%n",
        words(config.codeValid()), code);
  }

  private void recover(String username, PrintStream console) {
    StaffView found =
        staff
            .byUsername(username)
            .orElseThrow(
                () ->
                    new IllegalStateException(
                        "stimshelf.access.recover names no account: " + username));
    console.printf(
        "%nTo set a new password for %s, open /set-password and enter this code within %s:%n%n   "
            + " %s%n%n",
        found.username(), words(config.codeValid()), accounts.newCode(found.id()));
  }

  private static String words(Duration time) {
    return time.toMinutes() + " minutes";
  }
}
