package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.Check;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When a patient opens a fresh pad set, and how many packs that takes.
 *
 * <p>A set opened on day D may be used on D … D + openDays − 1. It is replaced once it has served
 * its planned uses, in the middle of a day if need be, or at the first session after its last day,
 * whichever comes first. Pads left over in an opened pack serve the next set if that is opened
 * within the pack's own openDays, counted from the pack's opening; later they are thrown away.
 *
 * @param openings every set in the order of its opening, the first included; never empty
 */
public record PadPlan(List<Opening> openings) {

  /** What ended the set before this one. */
  public enum Why {
    /** It is the first set. */
    FIRST,
    /** The set before had served its planned uses. */
    WORN,
    /** The set before had been open for its days. */
    TOO_OLD
  }

  /**
   * The opening of a pad set.
   *
   * @param day the day of its first session
   * @param session which session of that day it is opened for, from 1
   * @param packsOpened fresh packs opened for it; 0 where an opened pack still held enough
   * @param why what ended the set before
   */
  public record Opening(LocalDate day, int session, int packsOpened, Why why) {}

  /**
   * Packs that are due later.
   *
   * @param day the day on which they are opened, by which they must be in hand
   * @param packs 1 or more
   */
  public record Due(LocalDate day, int packs) {}

  public PadPlan {
    openings = List.copyOf(openings);
  }

  /**
   * A set in use and what is left beside it.
   *
   * @param used sessions it has served, 0 or more
   * @param openedOn the day of its opening
   * @param padsLeft pads left over in its pack, which was opened on the same day, 0 or more
   */
  public record InUse(int used, LocalDate openedOn, int padsLeft) {
    public InUse {
      Check.within("used", used, 0, 1_000_000);
      Check.within("padsLeft", padsLeft, 0, 1_000);
    }
  }

  /** The plan for one pad line; call it once for each line of a program. */
  public static PadPlan of(SessionDays sessions, PadLine line) {
    return new PadPlan(walk(sessions, line, sessions.firstDay(), 0, null, new ArrayDeque<>()));
  }

  /**
   * The openings still to come from a day on, when a set is in use: what it really served moves
   * them.
   *
   * @param from the first day that counts; its sessions are still to be held
   * @return empty if the set in use lasts to the end
   */
  public static List<Opening> ahead(
      SessionDays sessions, PadLine line, LocalDate from, InUse inUse) {
    Deque<Pack> opened = new ArrayDeque<>();
    if (inUse.padsLeft() > 0) {
      opened.add(new Pack(inUse.openedOn(), inUse.padsLeft()));
    }
    return List.copyOf(
        walk(
            sessions,
            line,
            from,
            Math.max(0, line.usesPerSet() - inUse.used()),
            inUse.openedOn(),
            opened));
  }

  private static List<Opening> walk(
      SessionDays sessions,
      PadLine line,
      LocalDate from,
      int left,
      @Nullable LocalDate openedOn,
      Deque<Pack> opened) {
    List<Opening> openings = new ArrayList<>();
    LocalDate setOpened = openedOn;
    int usesLeft = left;
    for (LocalDate day : sessions.days()) {
      for (int session = 1; session <= sessions.sessionsPerDay(); session++) {
        if (day.isBefore(from)) {
          continue;
        }
        boolean tooOld =
            setOpened != null && ChronoUnit.DAYS.between(setOpened, day) >= line.openDays();
        if (setOpened == null || usesLeft == 0 || tooOld) {
          Why why = setOpened == null ? Why.FIRST : usesLeft == 0 ? Why.WORN : Why.TOO_OLD;
          openings.add(new Opening(day, session, take(opened, day, line), why));
          setOpened = day;
          usesLeft = line.usesPerSet();
        }
        usesLeft--;
      }
    }
    return openings;
  }

  private static int take(Deque<Pack> opened, LocalDate day, PadLine line) {
    opened.removeIf(pack -> ChronoUnit.DAYS.between(pack.opened, day) >= line.openDays());
    int missing = line.padsPerSession();
    int fresh = 0;
    while (missing > 0) {
      Pack pack = opened.peekFirst();
      if (pack == null) {
        pack = new Pack(day, line.padsPerPack());
        opened.addLast(pack);
        fresh++;
      }
      int taken = Math.min(missing, pack.left);
      pack.left -= taken;
      missing -= taken;
      if (pack.left == 0) {
        opened.removeFirst();
      }
    }
    return fresh;
  }

  /** Sets opened over the whole program. */
  public int sets() {
    return openings.size();
  }

  /** Packs opened over the whole program. */
  public int packs() {
    return packsOf(sets());
  }

  /**
   * The days on which pads are changed: every opening but the first, a day as often as it changes.
   */
  public List<LocalDate> changes() {
    return openings.stream().skip(1).map(Opening::day).toList();
  }

  /**
   * Packs to hand out at once: for the sets opened up to and on the next appointment's day, plus
   * one spare set, but never more than the program takes.
   *
   * @param nextAppointment the day on which further packs can be handed out; null if there is none,
   *     then all packs are due at once
   */
  public int packsNow(@Nullable LocalDate nextAppointment) {
    return packsNow(nextAppointment, 1);
  }

  /**
   * The same with so many spare sets.
   *
   * @param spareSets 0 to 100
   */
  public int packsNow(@Nullable LocalDate nextAppointment, int spareSets) {
    return packsOf(setsNow(nextAppointment, spareSets));
  }

  /** What is left after {@link #packsNow}, by the day on which each is opened, ascending. */
  public List<Due> packsLater(@Nullable LocalDate nextAppointment) {
    return packsLater(nextAppointment, 1);
  }

  /** What is left after {@link #packsNow(LocalDate, int)}. */
  public List<Due> packsLater(@Nullable LocalDate nextAppointment, int spareSets) {
    List<Due> later = new ArrayList<>();
    for (Opening opening : openings.subList(setsNow(nextAppointment, spareSets), sets())) {
      if (opening.packsOpened() > 0) {
        int last = later.size() - 1;
        if (last >= 0 && later.get(last).day().equals(opening.day())) {
          int packs = later.get(last).packs() + opening.packsOpened();
          later.set(last, new Due(opening.day(), packs));
        } else {
          later.add(new Due(opening.day(), opening.packsOpened()));
        }
      }
    }
    return later;
  }

  private int setsNow(@Nullable LocalDate nextAppointment, int spareSets) {
    Check.within("spareSets", spareSets, 0, 100);
    if (nextAppointment == null) {
      return sets();
    }
    long until = openings.stream().filter(o -> !o.day().isAfter(nextAppointment)).count();
    return (int) Math.min(sets(), until + spareSets);
  }

  private int packsOf(int sets) {
    return openings.stream().limit(sets).mapToInt(Opening::packsOpened).sum();
  }

  private static final class Pack {
    private final LocalDate opened;
    private int left;

    private Pack(LocalDate opened, int left) {
      this.opened = opened;
      this.left = left;
    }
  }
}
