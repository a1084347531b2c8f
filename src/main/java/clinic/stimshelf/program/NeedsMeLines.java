package clinic.stimshelf.program;

import clinic.stimshelf.program.NeedsMeSource.Line;
import clinic.stimshelf.web.Days;
import java.util.ArrayList;
import java.util.List;

/** What stands about a running program on the page of whom it needs. */
final class NeedsMeLines {
  private NeedsMeLines() {}

  static Line held(Running one) {
    return line(
        one,
        "stopped",
        "Stopped: " + one.program().hold().say(),
        "Due back " + Days.shortly(one.version().dueOn) + ".",
        "Screen again");
  }

  static Line behind(Running one, LentFor.Lent lent) {
    Adherence followed = one.followed();
    boolean out = out(lent);
    return new Line(
        followed.missesInARow() >= 2 ? followed.missesInARow() + " missed" : "14 days",
        one.patient().name(),
        one.patient().chartNumber(),
        followed.missesInARow() >= 2
            ? "The last " + followed.missesInARow() + " sessions were missed"
            : followed.recentDone() + " of " + followed.recentKnown() + " known sessions done",
        out ? share(followed) + " " + called(lent) : share(followed),
        out ? lent.callHref() : "/programs/" + one.program().id,
        out ? "Call and log" : "Look at program");
  }

  static Line silent(Running one) {
    return line(
        one,
        one.followed().daysNotLogged() + " days",
        "Nothing is logged; that does not say missed",
        share(one.followed()),
        "Ask and log");
  }

  static Line givenUp(Running one, GivenUpPrograms.Asked asked) {
    LentFor.Lent lent = asked.lent();
    boolean out = out(lent);
    return new Line(
        asked.why().when(),
        one.patient().name(),
        one.patient().chartNumber(),
        asked.why().what(),
        share(one.followed()) + " " + (out ? called(lent) : "No unit is out."),
        out ? lent.callHref() : "/programs/" + one.program().id,
        out ? "Call and log" : "Look at program",
        "/programs/" + one.program().id + "/stop");
  }

  private static boolean out(LentFor.Lent lent) {
    return lent != null && lent.callHref() != null;
  }

  private static String called(LentFor.Lent lent) {
    return lent.lastCall() == null
        ? "Nobody has called yet."
        : "Last call " + lent.lastCall() + ".";
  }

  static Line ends(Running one) {
    return line(
        one,
        Days.shortly(one.version().lastSessionOn),
        "How it ends is to be decided, or the longer program to be signed",
        "Due back " + Days.shortly(one.version().dueOn) + ". " + share(one.followed()),
        "Decide");
  }

  static Line before(Running one) {
    List<String> lacks = new ArrayList<>();
    if (one.program().firstSessionAt == null) {
      lacks.add("first supervised session");
    }
    if (!one.program().settingConfirmed()) {
      lacks.add("setting on the unit");
    }
    return line(
        one,
        "starts " + Days.shortly(one.version().startsOn),
        "Outstanding: " + String.join(", ", lacks),
        null,
        "Record it");
  }

  static Line line(Running one, String when, String what, String why, String action) {
    return new Line(
        when,
        one.patient().name(),
        one.patient().chartNumber(),
        what,
        why,
        "/programs/" + one.program().id,
        action);
  }

  private static String share(Adherence followed) {
    return followed == null || followed.planned() == 0
        ? "No session was planned up to yesterday."
        : followed.done()
            + " of "
            + followed.planned()
            + " done, "
            + followed.missed()
            + " missed, "
            + followed.notLogged()
            + " not logged.";
  }
}
