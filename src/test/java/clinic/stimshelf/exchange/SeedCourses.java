package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedLoans.Loan;
import clinic.stimshelf.exchange.SeedPeople.Patient;
import clinic.stimshelf.exchange.SeedPlaces.Place;
import clinic.stimshelf.exchange.SeedPrograms.Pads;
import java.util.ArrayList;
import java.util.List;

/** What happens around the loans: screening, signature, sessions, pads worn, units cared for. */
final class SeedCourses {
  /** The reason of a program that its patient gave up. */
  static final String GIVEN_UP = "Came no more and told no sessions";

  /** A pack that leaves the cupboard for a patient, and the set that is opened from it. */
  record Gift(Loan loan, String code, int packs, int day, int minute, Worn worn) {}

  /** A set of pads in use; the lot is known once the cupboard is reckoned. */
  static final class Worn {
    String ref;
    int opened;
    int uses;
    String outcome;
    Integer closed;
    int pads;
    String lot;
  }

  /** A stretch of days in which packs of a type at a place came from a lot that did not last. */
  record BadLot(String place, String code, int from, int to) {
    boolean holds(String atPlace, String ofCode, int day) {
      return place.equals(atPlace) && code.equals(ofCode) && day >= from && day <= to;
    }
  }

  final SeedSheet programs = SeedPrograms.sheet();
  final SeedSheet screenings =
      new SeedSheet(
          "screenings",
          "ref",
          "location",
          "patient",
          "muscle",
          "side",
          "therapist",
          "screened_at",
          "yes");
  final SeedSheet consents =
      new SeedSheet(
          "consents",
          "ref",
          "location",
          "patient",
          "kind",
          "given",
          "text_version",
          "language",
          "signer",
          "relation",
          "means",
          "signed_at");
  final SeedSheet logs =
      new SeedSheet(
          "session-logs",
          "ref",
          "program",
          "on_day",
          "number",
          "outcome",
          "source",
          "intensity",
          "pads",
          "pads_trouble",
          "skin",
          "skin_trouble");
  final SeedSheet wipes = new SeedSheet("wipes", "ref", "unit", "product", "wiped_at", "done_by");
  final SeedSheet inspections =
      new SeedSheet("inspections", "ref", "unit", "inspected_at", "passed", "done_by");
  final SeedSheet faults =
      new SeedSheet("unit-faults", "ref", "unit", "kind", "noticed_at", "words", "told_by");
  final SeedSheet requests =
      new SeedSheet(
          "requests", "ref", "location", "program", "needed_from", "priority", "waiting_since");
  final List<Gift> gifts = new ArrayList<>();

  private final BadLot bad;

  /**
   * @param bad {@code null} while nothing is known of lots
   */
  SeedCourses(SeedLoans loans, SeedPlaces places, long seed, BadLot bad) {
    this.bad = bad;
    for (int i = 0; i < loans.loans.size(); i++) {
      Loan loan = loans.loans.get(i);
      // Each course has its own chance, so that a change in one leaves the others as they are.
      SeedChance chance = new SeedChance(seed + 7919L * i);
      program(loan, chance);
      List<int[]> done = sessions(loan, chance);
      for (Pads line : loan.type.pads()) {
        pads(loan, line, done, chance);
      }
      care(loan, chance);
      swapped(loan);
    }
    waiting(loans, places, new SeedChance(seed + 1));
    drafts(loans, places, new SeedChance(seed + 2));
  }

  private void program(Loan loan, SeedChance chance) {
    String chart = loan.patient.chart();
    String place = loan.place.code();
    screening(loan.ref + "-s", loan, loan.out, loan.outMinute - 75, chance);
    consent(loan.ref + "-c", loan.patient, place, loan.out, loan.outMinute - 8);
    row(
        loan.ref.replace('L', 'P'),
        loan,
        place,
        chart,
        SeedDay.write(loan.due),
        SeedDay.write(loan.out, loan.outMinute - 60),
        SeedDay.write(loan.out, loan.outMinute - 45),
        SeedDay.write(loan.out, loan.outMinute - 30),
        loan.unit.tag,
        SeedDay.write(loan.out, loan.outMinute - 15),
        loan.stopped == null ? null : SeedDay.write(loan.stopped, 9 * 60 + 40),
        loan.stopReason);
  }

  private void row(
      String ref,
      Loan loan,
      String place,
      String chart,
      String due,
      String drafted,
      String signed,
      String first,
      String unit,
      String set,
      String stopped,
      String stopReason) {
    SeedPrograms.Type type = loan.type;
    programs.row(
        ref,
        place,
        chart,
        loan.therapist,
        type.template(),
        type.on(),
        type.off(),
        "2",
        "yes",
        type.contractions(),
        type.minutes(),
        type.frequency(),
        "pulses",
        type.width(),
        "Strongest contraction that is still tolerable",
        type.perDay(),
        type.daysPerWeek(),
        loan.weeks,
        SeedDay.write(loan.start),
        type.placements().replace("SIDE", loan.side),
        type.padsText(),
        "drop-off",
        due,
        type.setting(),
        drafted,
        signed,
        first,
        unit,
        set,
        stopped,
        stopReason,
        GIVEN_UP.equals(stopReason) ? "yes" : null);
  }

  private void screening(String ref, Loan loan, int day, int minute, SeedChance chance) {
    String side = loan.type.placements().contains("both") ? "both" : loan.side;
    String yes =
        chance.of(0.12)
            ? "metal_implant_passive: Plate lies well away from the pads"
            : chance.of(0.08)
                ? "swelling_postop: Swelling is going down; pads placed above it"
                : chance.of(0.05)
                    ? "sensation_reduced: Feels touch and warmth where pads lie"
                    : null;
    screenings.row(
        ref,
        loan.place.code(),
        loan.patient.chart(),
        loan.type.muscle(),
        side,
        loan.therapist,
        SeedDay.write(day, minute),
        yes);
    int more = 1;
    for (String placement : loan.type.placements().split(" \\| ")) {
      String muscle = placement.substring(0, placement.indexOf(' '));
      if (!muscle.equals(loan.type.muscle())) {
        screenings.row(
            ref + ++more,
            loan.place.code(),
            loan.patient.chart(),
            muscle,
            side,
            loan.therapist,
            SeedDay.write(day, minute + 4),
            null);
      }
    }
  }

  private void consent(String ref, Patient patient, String place, int day, int minute) {
    consents.row(
        ref,
        place,
        patient.chart(),
        "loan",
        "yes",
        "2026-1",
        patient.language().equals("es") ? "es" : "en",
        patient.minor() ? patient.guardian() : patient.name(),
        patient.minor() ? "guardian" : "self",
        "paper",
        SeedDay.write(day, minute));
  }

  /** Logs the sessions; gives day and number of those in which pads were worn. */
  private List<int[]> sessions(Loan loan, SeedChance chance) {
    List<int[]> worn = new ArrayList<>();
    String program = loan.ref.replace('L', 'P');
    String source = chance.one("diary", "diary", "diary", "patient", "counter", "phone");
    int told = 0;
    for (int day : loan.sessionDays()) {
      if (day > Math.min(loan.lastDay(), 6)) {
        break;
      }
      for (int number = 1; number <= loan.type.perDay(); number++) {
        double share = chance.share();
        String outcome =
            day >= loan.missesOf
                ? "not"
                : share < loan.adherence
                    ? "done"
                    : share < loan.adherence + 0.03 ? "partial" : chance.of(0.6) ? "not" : null;
        if (outcome == null) {
          continue;
        }
        boolean wears = !outcome.equals("not");
        boolean loose = wears && chance.of(0.008);
        boolean pink = wears && chance.of(0.006);
        logs.row(
            "S" + program.substring(1) + "-" + ++told,
            program,
            SeedDay.write(day),
            number,
            outcome,
            source,
            wears && chance.of(0.15) ? chance.between(22, 48) + " mA" : null,
            loose ? "edges lift" : null,
            loose ? "yes" : null,
            pink ? "stayed red until evening" : null,
            pink ? "yes" : null);
        if (wears) {
          worn.add(new int[] {day, number});
        }
      }
    }
    return worn;
  }

  /** Sets opened one after another as they wear; packs are fetched a little before. */
  private void pads(Loan loan, Pads line, List<int[]> worn, SeedChance chance) {
    int packs =
        (line.perSession() + SeedStock.perPack(line.code()) - 1) / SeedStock.perPack(line.code());
    int next = 0;
    int sets = 0;
    while (next < worn.size() || sets < 2) {
      Worn set = new Worn();
      set.ref = loan.ref + "-" + line.code() + "-" + (sets + 1);
      set.pads = line.perSession();
      int given = sets < 2 ? loan.out : SeedDay.weekdayBefore(worn.get(next)[0]);
      int minute = sets < 2 ? loan.outMinute + 1 : 11 * 60 + chance.between(0, 50);
      if (next < worn.size()) {
        set.opened = worn.get(next)[0];
        int life = life(loan, line.code(), given, chance);
        int uses = 0;
        while (next < worn.size() && uses < life && worn.get(next)[0] < set.opened + 30) {
          uses++;
          next++;
        }
        set.uses = uses;
        close(set, loan, worn, next, uses < life, chance);
      } else {
        set = null;
      }
      gifts.add(new Gift(loan, line.code(), packs, given, minute, set));
      sets++;
    }
  }

  private int life(Loan loan, String code, int given, SeedChance chance) {
    boolean poor = bad != null && bad.holds(loan.place.code(), code, given);
    double life = poor ? chance.around(4.5, 1.2) : chance.around(18, 3.6);
    return (int) Math.max(3, Math.round(life));
  }

  private static void close(
      Worn set, Loan loan, List<int[]> worn, int next, boolean early, SeedChance chance) {
    boolean last = next >= worn.size();
    if (last && loan.returned == null) {
      return;
    }
    set.closed = last ? loan.returned : worn.get(next)[0];
    set.outcome =
        last
            ? chance.one("still-good", "still-good", "worn", "discarded")
            : early
                ? "dried-out"
                : chance.of(0.25) ? "wont-stick" : chance.of(0.03) ? "lost" : "worn";
    if (set.closed < set.opened) {
      set.closed = set.opened;
    }
  }

  private void care(Loan loan, SeedChance chance) {
    if (loan.returned == null) {
      return;
    }
    String by = carer(loan);
    boolean wiped = !loan.unit.state.equals("to-wipe") || loan.returned < -4;
    boolean seen = wiped && (!loan.unit.state.equals("to-inspect") || loan.returned < -4);
    if (wiped) {
      wipes.row(
          loan.ref + "-w",
          loan.unit.tag,
          "gray-tub",
          SeedDay.write(loan.returned, loan.returnedMinute + 6),
          by);
    }
    if (seen) {
      inspections.row(
          loan.ref + "-i",
          loan.unit.tag,
          SeedDay.write(loan.returned, loan.returnedMinute + 20),
          "yes",
          by);
    }
    if (chance.of(0.07) && loan.unitBefore == null) {
      faults.row(
          loan.ref + "-f",
          loan.unit.tag,
          chance.of(0.3) ? "drop" : "fault",
          SeedDay.write(loan.returned, loan.returnedMinute + 3),
          chance.one(
              "Fell from a shelf, case scuffed", "Lead socket loose", "Shows low cell at once"),
          loan.patient.minor() ? "guardian" : "patient");
    }
  }

  private static String carer(Loan loan) {
    return loan.place.code().equals("MILL") ? "Omar Haddad" : "Frances Deskin";
  }

  private void swapped(Loan loan) {
    if (loan.unitBefore != null) {
      faults.row(
          loan.ref + "-f",
          loan.unitBefore,
          "fault",
          SeedDay.write(loan.swappedOn(), 10 * 60 + 30),
          "Channel 2 cuts out",
          loan.patient.minor() ? "guardian" : "patient");
      String by = carer(loan);
      wipes.row(
          loan.ref + "-sw",
          loan.unitBefore,
          "gray-tub",
          SeedDay.write(loan.swappedOn(), 10 * 60 + 50),
          by);
      inspections.row(
          loan.ref + "-si",
          loan.unitBefore,
          SeedDay.write(loan.swappedOn(), 11 * 60 + 25),
          "yes",
          by);
    }
  }

  /** Signed last week, waiting for a unit: two could go out today, two lack something. */
  private void waiting(SeedLoans loans, SeedPlaces places, SeedChance chance) {
    int number = 1;
    for (Place place : places.places) {
      for (int kind : List.of(SeedPlaces.DUO, SeedPlaces.QUAD)) {
        Loan loan = new Loan();
        loan.place = place;
        loan.type = SeedPrograms.pick(kind, chance);
        loan.weeks = loan.type.weeks();
        loan.side = chance.one("left", "right");
        loan.therapist = place.pts().get(kind % place.pts().size());
        loan.start = number % 2 == 1 ? 1 : 8;
        loan.patient = loans.patient(place, -20, 40);
        loan.unit =
            place
                .of(kind)
                .get(place.code().equals("MILL") ? place.of(kind).size() - 1 : kind == 0 ? 5 : 1);
        String ref = "P9" + number + "0";
        int signed = -5 + number % 3;
        int minute = 9 * 60 + 20 * number;
        screening(ref + "-s", loan, signed, minute, chance);
        consent(ref + "-c", loan.patient, place.code(), signed, minute + 50);
        row(
            ref,
            loan,
            place.code(),
            loan.patient.chart(),
            null,
            SeedDay.write(signed, minute + 10),
            SeedDay.write(signed, minute + 20),
            // The last of them has not had a first session, and no setting is confirmed.
            number == 4 ? null : SeedDay.write(signed, minute + 35),
            number == 4 ? null : loan.unit.tag,
            number == 4 ? null : SeedDay.write(signed, minute + 45),
            null,
            null);
        requests.row(
            "R" + number,
            place.code(),
            ref,
            SeedDay.write(loan.start - 1),
            number % 2 == 1 ? 1 : 2,
            SeedDay.write(signed, minute + 55));
        number++;
      }
    }
  }

  /** Written, not signed: one by the student, two by a physical therapist. */
  private void drafts(SeedLoans loans, SeedPlaces places, SeedChance chance) {
    int number = 1;
    for (String drafter : List.of("kit", "theo", "petra")) {
      Place place = places.places.get(drafter.equals("petra") ? 1 : 0);
      Loan loan = new Loan();
      loan.place = place;
      loan.type = SeedPrograms.pick(SeedPlaces.DUO, chance);
      loan.weeks = loan.type.weeks();
      loan.side = chance.one("left", "right");
      loan.therapist = drafter;
      loan.start = 8;
      loan.patient = loans.patient(place, -20, 40);
      row(
          "P8" + number + "0",
          loan,
          place.code(),
          loan.patient.chart(),
          null,
          SeedDay.write(-3, 13 * 60 + 7 * number),
          null,
          null,
          null,
          null,
          null,
          null);
      if (number != 3) {
        loan.therapist = drafter.equals("kit") ? "amara" : drafter;
        screening("P8" + number + "0-s", loan, -3, 12 * 60 + 40, chance);
      }
      number++;
    }
  }
}
