package clinic.stimshelf.pads;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Stale;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The kinds of pads the clinic buys. */
@ApplicationScoped
public class PadCatalog {
  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9._-]{1,32}");
  private static final BigDecimal DEAREST = new BigDecimal("99999999");

  @Inject PadTypeRows rows;
  @Inject PriceList prices;
  @Inject Trail trail;
  @Inject EventTimes times;

  /** Every pad type in use, by name. */
  @Transactional
  public List<PadTypeView> active() {
    return rows.list("active = true order by name").stream().map(PadType::view).toList();
  }

  /** Every pad type, by name. */
  @Transactional
  public List<PadTypeView> all() {
    return rows.list("order by name").stream().map(PadType::view).toList();
  }

  /**
   * @throws NotFound if there is none
   */
  @Transactional
  public PadTypeView byCode(String code) {
    return row(code).view();
  }

  /** Pad types by number. */
  @Transactional
  public Map<Long, PadTypeView> byIds(Collection<Long> ids) {
    return rows.list("id in ?1", ids).stream()
        .map(PadType::view)
        .collect(Collectors.toMap(PadTypeView::id, Function.identity()));
  }

  /**
   * Adds a pad type.
   *
   * @return its number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long add(NewPadType entered) {
    return add(entered, times.now(), "added");
  }

  /** Takes a pad type from a file; a known {@code ref} changes nothing. */
  @Transactional
  public Long enterPadType(NewPadType entered) {
    if (entered.ref() != null) {
      PadType known = rows.find("ref", entered.ref()).firstResult();
      if (known != null) {
        return known.id;
      }
    }
    return add(entered, times.now(), "imported");
  }

  private Long add(NewPadType entered, Happened happened, String action) {
    NewPadType wanted = entered.filled();
    Refusals refusals = new Refusals();
    if (wanted.code() == null || !CODE.matcher(wanted.code()).matches()) {
      refusals.add(
          "code",
          "“"
              + words(wanted.code())
              + "” is no pad code: 1 to 32 letters, digits, dots, dashes or _.");
    } else if (Shown.KEPT_WORDS.contains(wanted.code())) {
      refusals.add("code", "“" + wanted.code() + "” is the name of a page. Choose another code.");
    } else if (rows.count("code", wanted.code()) > 0) {
      refusals.add("code", "Another pad type has the code “" + wanted.code() + "”.");
    }
    check(wanted, refusals);
    refusals.throwIfAny();
    PadType row = new PadType();
    row.ref = wanted.ref();
    row.code = wanted.code();
    row.active = true;
    write(row, wanted);
    rows.persistAndFlush(row);
    prices.begin(row.id, row.price);
    trail.record(subject(row), action, happened, null, row.view());
    return row.id;
  }

  /**
   * Changes everything but the code.
   *
   * @param version as it was read, or {@code null} to change it in any case
   * @throws Stale if it was changed since
   */
  @Transactional
  public void change(String code, NewPadType entered, Integer version) {
    PadType row = row(code);
    if (version != null && version != row.version) {
      throw new Stale("Somebody changed this pad type since. Look at it again.");
    }
    NewPadType wanted = entered.filled();
    Refusals refusals = new Refusals();
    check(wanted, refusals);
    refusals.throwIfAny();
    PadTypeView before = row.view();
    write(row, wanted);
    if (before.price().compareTo(row.price) != 0) {
      prices.change(row.id, row.price);
    }
    trail.record(subject(row), "changed", times.now(), before, row.view());
  }

  /** Takes a pad type out of use, or back into it; its history stays. */
  @Transactional
  public void use(String code, boolean active) {
    PadType row = row(code);
    if (row.active != active) {
      PadTypeView before = row.view();
      row.active = active;
      trail.record(subject(row), active ? "in use" : "out of use", times.now(), before, row.view());
    }
  }

  /** Names of every type, in use or not, by code. */
  @Transactional
  public Map<String, String> names() {
    return rows.listAll().stream().collect(Collectors.toMap(type -> type.code, type -> type.name));
  }

  PadType row(String code) {
    return rows.find("code", code)
        .firstResultOptional()
        .orElseThrow(() -> new NotFound("There is no pad type “" + code + "”."));
  }

  private static Subject subject(PadType row) {
    return Subject.of("pad-type", row.code);
  }

  private static void check(NewPadType wanted, Refusals refusals) {
    text(refusals, "name", "The name", wanted.name(), 120);
    text(refusals, "connector", "The connector", wanted.connector(), 40);
    if (wanted.supplier() != null && wanted.supplier().length() > 120) {
      refusals.add("supplier", "The supplier's name has at most 120 characters.");
    }
    if (wanted.shape() != PadShape.SUPPLY) {
      whole(refusals, "widthMm", "The width in millimeters", wanted.widthMm(), 5, 500);
      whole(refusals, "heightMm", "The height in millimeters", wanted.heightMm(), 5, 500);
    }
    if (wanted.shape() == PadShape.ROUND
        && wanted.widthMm() != null
        && !wanted.widthMm().equals(wanted.heightMm())) {
      refusals.add("heightMm", "A round pad is as high as it is wide.");
    }
    whole(refusals, "padsPerPack", "Pads a pack", wanted.padsPerPack(), 1, 1_000);
    whole(refusals, "setsPerPouch", "Sets a pouch", wanted.setsPerPouch(), 1, 100);
    whole(refusals, "ratedUses", "Rated uses", wanted.ratedUses(), 1, 1_000);
    whole(refusals, "openDays", "Days an opened pouch is good for", wanted.openDays(), 1, 1_000);
    whole(refusals, "leadDays", "Days until delivery", wanted.leadDays(), 0, 365);
    whole(refusals, "packsPerCase", "Packs a case", wanted.packsPerCase(), 1, 1_000);
    whole(refusals, "minimumOrder", "The smallest order", wanted.minimumOrder(), 0, 100_000);
    whole(refusals, "shelfDays", "Days of shelf life", wanted.shelfDays(), 1, 10_000);
    money(refusals, "price", "The price of a pack", wanted.price());
    money(refusals, "orderCost", "The cost of an order", wanted.orderCost());
    money(refusals, "holdingCost", "The cost of keeping a pack", wanted.holdingCost());
  }

  private static void text(Refusals refusals, String field, String what, String text, int most) {
    if (text == null || text.isBlank() || text.length() > most) {
      refusals.add(field, what + " has 1 to " + most + " characters.");
    }
  }

  private static void whole(
      Refusals refusals, String field, String what, Integer number, int least, int most) {
    if (number == null || number < least || number > most) {
      refusals.add(
          field,
          what
              + " must be a whole number from "
              + least
              + " to "
              + most
              + ", not "
              + words(number)
              + ".");
    }
  }

  private static void money(Refusals refusals, String field, String what, BigDecimal amount) {
    if (amount != null && (amount.signum() < 0 || amount.compareTo(DEAREST) > 0)) {
      refusals.add(field, what + " must be an amount of 0 or more, not " + amount + ".");
    }
  }

  private static String words(Object entered) {
    return entered == null ? "nothing" : entered.toString();
  }

  private static void write(PadType row, NewPadType wanted) {
    row.name = wanted.name().strip();
    row.shape = wanted.shape();
    row.widthMm = wanted.widthMm();
    row.heightMm = wanted.heightMm();
    row.connector = wanted.connector().strip();
    row.padsPerPack = wanted.padsPerPack();
    row.setsPerPouch = wanted.setsPerPouch();
    row.ratedUses = wanted.ratedUses();
    row.openDays = wanted.openDays();
    row.price = wanted.price();
    row.supplier = wanted.supplier();
    row.leadDays = wanted.leadDays();
    row.packsPerCase = wanted.packsPerCase();
    row.minimumOrder = wanted.minimumOrder();
    row.orderCost = wanted.orderCost();
    row.holdingCost = wanted.holdingCost();
    row.shelfDays = wanted.shelfDays();
  }
}
