package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedCourses.Gift;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The cupboard of the demo, reckoned day by day: packs leave the lot that expires first, orders are
 * placed when few are left, deliveries take their days. No lot is used within five days of its
 * delivery, so that days moved off a closed one never turn the two around.
 */
final class SeedStock {
  private static final int SETTLED = 5;
  private static final String HELD_BACK = "OB-5090:F20102";
  private static final String CONSIGNED = "SQ-5050:F32894";

  /** A pad type. */
  record PadType(
      String code,
      String name,
      String shape,
      int width,
      int height,
      String connector,
      int perPack,
      String price,
      String supplier,
      int lead,
      int perCase,
      int minimum) {}

  static final List<PadType> TYPES =
      List.of(
          new PadType(
              "OB-5090",
              "Oblong 50 x 90 mm",
              "rectangle",
              50,
              90,
              "pin-2mm",
              4,
              "8.75",
              "Fenwick Supply",
              7,
              10,
              10),
          new PadType(
              "SQ-5050",
              "Square 50 x 50 mm",
              "rectangle",
              50,
              50,
              "pin-2mm",
              4,
              "6.40",
              "Fenwick Supply",
              7,
              10,
              10),
          new PadType(
              "OB-75130",
              "Large 75 x 130 mm",
              "rectangle",
              75,
              130,
              "pin-2mm",
              2,
              "9.90",
              "Tolliver Medical Goods",
              9,
              5,
              5),
          new PadType(
              "RD-70",
              "Round 70 mm",
              "round",
              70,
              70,
              "pin-2mm",
              4,
              "8.20",
              "Tolliver Medical Goods",
              9,
              5,
              5),
          new PadType(
              "SN-5090",
              "Oblong 50 x 90 mm, snap",
              "rectangle",
              50,
              90,
              "snap",
              4,
              "7.95",
              "Fenwick Supply",
              7,
              10,
              10));

  private static final class Lot {
    String number;
    int from;
    int expires;
    int left;
  }

  private record Leaves(
      String place,
      String code,
      int packs,
      int day,
      int minute,
      java.util.function.Consumer<String> as) {}

  final SeedSheet opening =
      new SeedSheet("opening-stock", "ref", "location", "code", "lot", "packs", "happened_at");
  final SeedSheet deliveries =
      new SeedSheet(
          "deliveries",
          "ref",
          "location",
          "code",
          "lot",
          "packs",
          "price",
          "ordered_on",
          "happened_at");
  final SeedSheet given =
      new SeedSheet(
          "packs-given",
          "ref",
          "location",
          "patient",
          "loan",
          "code",
          "lot",
          "packs",
          "happened_at");
  final SeedSheet taken =
      new SeedSheet(
          "drawer-takes",
          "ref",
          "location",
          "code",
          "lot",
          "packs",
          "drawer_reason",
          "happened_at",
          "note");
  final SeedSheet gone =
      new SeedSheet(
          "packs-gone", "ref", "location", "code", "lot", "packs", "why", "happened_at", "note");
  final SeedSheet sets =
      new SeedSheet(
          "pad-sets",
          "ref",
          "location",
          "patient",
          "program",
          "code",
          "lot",
          "pads",
          "opened_on",
          "uses",
          "outcome",
          "closed_on");

  /** Every lot with its expiry, by code and number. */
  private final Map<String, Integer> lots = new TreeMap<>();

  private final Map<String, int[]> bulk = new HashMap<>();
  private final SeedChance chance;
  private int number;

  SeedStock(SeedCourses courses, List<int[]> treatments, SeedPlaces places, long seed) {
    chance = new SeedChance(seed);
    List<Leaves> leaves = new ArrayList<>();
    courses.gifts.forEach(gift -> leaves.add(leaves(gift)));
    for (int i = 0; i < places.places.size(); i++) {
      drawer(places.places.get(i).code(), leaves);
      treated(places.places.get(i).code(), i, treatments, leaves);
    }
    for (SeedPlaces.Place place : places.places) {
      for (PadType type : TYPES) {
        List<Leaves> own =
            leaves.stream()
                .filter(one -> one.place.equals(place.code()) && one.code.equals(type.code()))
                .sorted(
                    Comparator.comparingInt((Leaves one) -> one.day)
                        .thenComparingInt(one -> one.minute))
                .toList();
        reckon(place.code(), type, own);
      }
    }
    leftovers();
  }

  static int perPack(String code) {
    return TYPES.stream()
        .filter(type -> type.code().equals(code))
        .findFirst()
        .orElseThrow()
        .perPack();
  }

  private Leaves leaves(Gift gift) {
    String place = gift.loan().place.code();
    return new Leaves(
        place,
        gift.code(),
        gift.packs(),
        gift.day(),
        gift.minute(),
        lot -> {
          given.row(
              "G" + (given.size() + 1),
              place,
              gift.loan().patient.chart(),
              gift.loan().ref,
              gift.code(),
              lot,
              gift.packs(),
              SeedDay.write(gift.day(), gift.minute()));
          if (gift.worn() != null) {
            SeedCourses.Worn set = gift.worn();
            sets.row(
                set.ref,
                place,
                gift.loan().patient.chart(),
                gift.loan().ref.replace('L', 'P'),
                gift.code(),
                gift.code() + ":" + lot,
                set.pads,
                SeedDay.write(set.opened),
                set.uses,
                set.outcome,
                set.closed == null ? null : SeedDay.write(set.closed));
          }
        });
  }

  private void drawer(String place, List<Leaves> leaves) {
    for (int week = -78; week <= 0; week++) {
      int count = chance.of(0.5) ? 1 : chance.of(0.5) ? 2 : 0;
      for (int i = 0; i < count; i++) {
        String code = chance.one("OB-5090", "OB-5090", "SQ-5050", "SQ-5050", "OB-75130", "RD-70");
        String reason = chance.one("trial", "trial", "wont-stick", "teaching", "damaged", "other");
        int day = 7 * week + chance.between(0, 4);
        int minute = chance.between(17, 30) * 30 + 7;
        leaves.add(
            new Leaves(
                place,
                code,
                1,
                day,
                minute,
                lot ->
                    taken.row(
                        "T" + (taken.size() + 1),
                        place,
                        code,
                        lot,
                        1,
                        reason,
                        SeedDay.write(day, minute),
                        reason.equals("other") ? "Lent to the school team" : null)));
      }
    }
  }

  /** Patients treated in the clinic begin a pack of their own there. */
  private void treated(String place, int index, List<int[]> treatments, List<Leaves> leaves) {
    for (int[] begun : treatments) {
      if (begun[0] == index) {
        leaves.add(
            new Leaves(
                place,
                "SN-5090",
                1,
                begun[1],
                begun[2],
                lot ->
                    gone.row(
                        "A" + (gone.size() + 1),
                        place,
                        "SN-5090",
                        lot,
                        1,
                        "appointment",
                        SeedDay.write(begun[1], begun[2]),
                        null)));
      }
    }
  }

  private void reckon(String place, PadType type, List<Leaves> own) {
    double daily = own.stream().mapToInt(Leaves::packs).sum() / (double) (-SeedLoans.FIRST);
    int level = (int) Math.ceil(daily * 30) + 9;
    int batch =
        Math.max(type.minimum(), (int) Math.ceil(daily * 35 / type.perCase()) * type.perCase());
    List<Lot> shelf = new ArrayList<>();
    Lot first = lot(type, SeedLoans.FIRST - 14, 430 + chance.between(0, 60), level + batch);
    shelf.add(first);
    opening.row(
        "O" + (opening.size() + 1),
        place,
        type.code(),
        first.number,
        first.left,
        SeedDay.write(first.from, 9 * 60));
    int coming = Integer.MIN_VALUE;
    int ordered = 0;
    int next = 0;
    for (int day = SeedLoans.FIRST - 3; day <= 6; day++) {
      if (coming == day) {
        Lot lot = lot(type, day, 540 + chance.between(0, 120), batch);
        shelf.add(lot);
        deliveries.row(
            "D" + (deliveries.size() + 1),
            place,
            type.code(),
            lot.number,
            batch,
            paid(type, ordered),
            SeedDay.write(ordered),
            SeedDay.write(day, 9 * 60 + 45));
        coming = Integer.MIN_VALUE;
      }
      while (next < own.size() && own.get(next).day <= day) {
        take(place, type, shelf, own.get(next++));
      }
      int left = shelf.stream().mapToInt(lot -> lot.left).sum();
      // One order was forgotten, so that today there is something to order.
      boolean forgotten = place.equals("HARBOR") && type.code().equals("OB-5090") && day > -40;
      if (left <= level
          && coming == Integer.MIN_VALUE
          && SeedDay.weekday(day) == day
          && !forgotten) {
        ordered = day;
        coming = SeedDay.weekday(day + type.lead() + chance.between(-2, 4));
      }
    }
  }

  private void take(String place, PadType type, List<Lot> shelf, Leaves leaves) {
    int missing = leaves.packs();
    for (Lot lot : shelf.stream().sorted(Comparator.comparingInt(one -> one.expires)).toList()) {
      if (lot.left >= missing && lot.from + SETTLED < leaves.day && lot.expires > leaves.day + 20) {
        lot.left -= missing;
        leaves.as.accept(lot.number);
        int[] seen =
            bulk.computeIfAbsent(
                place + " " + type.code() + " " + lot.number,
                one -> new int[] {leaves.day, leaves.day, 0});
        seen[1] = leaves.day;
        seen[2] += missing;
        return;
      }
    }
    throw new IllegalStateException(
        "The cupboard of " + place + " has no " + type.code() + " on " + SeedDay.write(leaves.day));
  }

  private Lot lot(PadType type, int from, int life, int packs) {
    Lot lot = new Lot();
    lot.number = "%s%05d".formatted(type.supplier().charAt(0), 20611 + 173 * ++number);
    lot.from = from;
    lot.expires = from + life;
    lot.left = packs;
    lots.put(type.code() + ":" + lot.number, lot.expires);
    return lot;
  }

  /** One supplier became dearer half a year ago, the other gives a rebate of late. */
  private static String paid(PadType type, int ordered) {
    BigDecimal list = new BigDecimal(type.price());
    BigDecimal factor =
        type.supplier().startsWith("Fenwick")
            ? (ordered > -170 ? new BigDecimal("1.04") : BigDecimal.ONE)
            : (ordered > -90 ? new BigDecimal("0.97") : BigDecimal.ONE);
    return list.multiply(factor).setScale(2, RoundingMode.HALF_EVEN).toPlainString();
  }

  /** Lots that show what expiry and a supplier's notice do. */
  private void leftovers() {
    Lot over = new Lot();
    over.number = "T19984";
    lots.put("OB-75130:" + over.number, -12);
    opening.row("O990", "MILL", "OB-75130", over.number, 2, SeedDay.write(-500, 9 * 60));
    lots.put("RD-70:T20007", 26);
    opening.row("O991", "HARBOR", "RD-70", "T20007", 6, SeedDay.write(-480, 9 * 60));
    lots.put("SQ-5050:F19870", -200);
    opening.row("O992", "HARBOR", "SQ-5050", "F19870", 3, SeedDay.write(-500, 9 * 60));
    gone.row(
        "A990",
        "HARBOR",
        "SQ-5050",
        "F19870",
        3,
        "expired",
        SeedDay.write(-193, 16 * 60),
        "Found at the back");
    lots.put(HELD_BACK, 300);
    deliveries.row(
        "D990",
        "HARBOR",
        "OB-5090",
        HELD_BACK.substring(8),
        10,
        "9.10",
        SeedDay.write(-45),
        SeedDay.write(-38, 9 * 60 + 45));
  }

  /** The stretch in which a lot of that type went to the most patients, in the last half year. */
  SeedCourses.BadLot worst(String place, String code) {
    int[] found =
        bulk.entrySet().stream()
            .filter(one -> one.getKey().startsWith(place + " " + code + " "))
            .map(Map.Entry::getValue)
            .filter(seen -> seen[0] > -240 && seen[1] < -20)
            .max(Comparator.comparingInt((int[] seen) -> seen[2]).thenComparingInt(seen -> seen[0]))
            .orElseThrow();
    return new SeedCourses.BadLot(place, code, found[0], found[1]);
  }

  List<SeedSheet> sheets() {
    SeedSheet types =
        new SeedSheet(
            "pad-types",
            "code",
            "name",
            "shape",
            "width_mm",
            "height_mm",
            "connector",
            "pads_per_pack",
            "rated_uses",
            "open_days",
            "price",
            "supplier",
            "lead_days",
            "packs_per_case",
            "minimum_order",
            "order_cost",
            "holding_cost");
    TYPES.forEach(
        type ->
            types.row(
                type.code(),
                type.name(),
                type.shape(),
                type.width(),
                type.height(),
                type.connector(),
                type.perPack(),
                20,
                30,
                type.price(),
                type.supplier(),
                type.lead(),
                type.perCase(),
                type.minimum(),
                "12.00",
                "1.10"));
    SeedSheet lotSheet =
        new SeedSheet("pad-lots", "code", "lot", "expires_on", "held_back", "consigned");
    lots.forEach(
        (key, expires) ->
            lotSheet.row(
                key.substring(0, key.indexOf(':')),
                key.substring(key.indexOf(':') + 1),
                SeedDay.write(expires),
                key.equals(HELD_BACK) ? "Supplier's notice: gel peels off the backing" : null,
                key.equals(CONSIGNED) ? "yes" : null));
    SeedSheet drawers =
        new SeedSheet("treatment-drawers", "location", "drawer", "code", "fill_to", "packs");
    drawers.row("HARBOR", "Table 1", "SQ-5050", 6, 4);
    drawers.row("HARBOR", "Table 2", "OB-5090", 4, 4);
    drawers.row("MILL", "Table 1", "SQ-5050", 5, 3);
    return List.of(types, lotSheet, drawers, opening, deliveries, given, taken, gone, sets);
  }
}
