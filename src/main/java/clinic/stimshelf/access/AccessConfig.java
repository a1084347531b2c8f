package clinic.stimshelf.access;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.time.Duration;
import java.util.Optional;

/** How signing in behaves, {@code stimshelf.access.*}. */
@ConfigMapping(prefix = "stimshelf.access")
interface AccessConfig {

  /** A browser nobody touches is signed out after this long: 45 CFR 164.312(a)(2)(iii). */
  @WithDefault("PT15M")
  Duration idle();

  /** How long before that a page asks; WCAG 2.2.1 wants at least 20 seconds. */
  @WithDefault("PT2M")
  Duration warning();

  /** A session ends after this long however busy it is: longer than a shift, shorter than two. */
  @WithDefault("PT12H")
  Duration absolute();

  /** How long a one-time code works: long enough to walk over to the colleague. */
  @WithDefault("PT1H")
  Duration codeValid();

  /**
   * How long a verified Basic password is remembered, since each check costs some 50 ms and 20 MB.
   */
  @WithDefault("PT5M")
  Duration rememberBasic();

  /** How long a form typed into an ended session is kept for its browser. */
  @WithDefault("PT4H")
  Duration keepForms();

  /**
   * Whether passwords and keys are taken over plain HTTP from other machines. Only for a network
   * that encrypts by itself.
   */
  @WithDefault("false")
  boolean plainHttp();

  /** Username of a manager who lost the password: a one-time code is printed at the next start. */
  Optional<String> recover();
}
