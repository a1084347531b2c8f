package clinic.stimshelf.web;

import java.util.List;

/** What every page shows around its own matter. The room of accounts says who is there. */
public interface Frame {

  /** Whether somebody is signed in. */
  boolean signedIn();

  /** Name of the signed-in person, empty if none. */
  String person();

  /** Role or credential in words, empty if none. */
  String part();

  /** Whether the signed-in person holds the role. */
  boolean has(String role);

  /** Name of the location whose matters are shown, empty if none. */
  String place();

  /** Code of that location, empty if none. */
  String placeCode();

  /** The locations the person may work at. */
  List<Place> places();

  /** The location's day in words, for instance "Wednesday, March 4, 2026". */
  String day();

  /** Token that every form sends back. */
  String csrf();

  /** Whether names are blanked because the screen faces the waiting room. */
  boolean privacy();

  /** Whether this is the demo clinic. */
  boolean demo();

  /** Seconds until this screen signs out if nobody touches it; 0 if it doesn't. */
  long secondsLeft();

  /** How many seconds before that the page asks. */
  long secondsWarning();

  /** A location to choose. */
  record Place(String code, String name) {}
}
