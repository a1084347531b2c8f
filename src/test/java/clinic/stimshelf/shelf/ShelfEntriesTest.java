package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.shelf.Entered.EnteredFault;
import clinic.stimshelf.shelf.Entered.EnteredInspection;
import clinic.stimshelf.shelf.Entered.EnteredPart;
import clinic.stimshelf.shelf.Entered.EnteredTest;
import clinic.stimshelf.shelf.Entered.EnteredUnit;
import clinic.stimshelf.shelf.Entered.EnteredUse;
import clinic.stimshelf.shelf.Entered.EnteredWipe;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Month;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What files say already happened. */
@QuarkusTest
class ShelfEntriesTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject ShelfEntries entries;
  @Inject UnitHistories histories;
  @Inject Units units;

  private Long location;
  private String kind;

  @BeforeEach
  void aLocation() {
    location = scene.location();
    kind = scene.kind(2);
  }

  @Test
  void aWholeFileOfHistoryComesInWithinOneTransaction() {
    String tag = ShelfScene.unique("E");
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              entries.enterSpot(location, "Cupboard E", 1);
              Long unit = entries.enterUnit(unit(tag, "Cupboard E", null));
              entries.enterPart(
                  new EnteredPart(tag + "a", tag, "lead-set", null, tag + "-L", null, null));
              entries.enterWipe(
                  new EnteredWipe(tag + "b", tag, "gray-tub", ago(30), "T. Moe", null));
              entries.enterInspection(
                  new EnteredInspection(tag + "c", tag, ago(30), true, null, null));
              entries.enterTest(
                  new EnteredTest(
                      tag + "d",
                      tag,
                      LocalDate.of(2025, Month.JUNE, 2),
                      true,
                      null,
                      "Bench",
                      null,
                      null));
              entries.enterFault(new EnteredFault(tag + "e", tag, "fault", ago(40), "beeps", null));
              entries.enterUse(use(unit, 901L, 100, 60));
              entries.enterUse(use(unit, 902L, 20, null));
            });
    UnitView unit = shelf.byTag(tag);
    assertThat(unit.state()).isEqualTo(UnitState.ON_LOAN);
    assertThat(unit.spot()).isEqualTo("Cupboard E");
    assertThat(unit.use().subjectId()).isEqualTo(902L);
    assertThat(unit.contents()).hasSize(1);
    assertThat(histories.of(tag).lines())
        .extracting(HistoryLine::kind)
        .containsExactly("loan", "wipe", "inspection", "fault", "loan", "test");
  }

  @Test
  void theSameFileTwiceChangesNothing() {
    String tag = ShelfScene.unique("E");
    Long first = entries.enterUnit(unit(tag, null, null));
    assertThat(entries.enterUnit(unit(tag, null, "retired"))).isEqualTo(first);
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.READY);
    EnteredPart part = new EnteredPart(tag + "a", tag, "bag", null, null, null, null);
    assertThat(entries.enterPart(part)).isEqualTo(entries.enterPart(part));
    assertThat(shelf.byTag(tag).contents()).hasSize(1);
  }

  @Test
  void everythingWrongInARowIsNamedByItsColumn() {
    assertThatThrownBy(
            () ->
                entries.enterUnit(
                    new EnteredUnit(
                        "r", "no tag!", " ", "none", location, "nowhere", "fun", "on-loan", null,
                        null, null, -1, null, null, null)))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting(Reason::field)
                    .containsExactlyInAnyOrder(
                        "tag", "serial", "purpose", "state", "use_counter", "kind", "spot"));
  }

  @Test
  void twoUnitsOfOneFileMayNotShareATag() {
    String tag = ShelfScene.unique("E");
    assertThatThrownBy(
            () ->
                QuarkusTransaction.requiringNew()
                    .run(
                        () -> {
                          entries.enterUnit(unit(tag, null, null));
                          entries.enterUnit(
                              new EnteredUnit(
                                  "other",
                                  tag.toLowerCase(),
                                  "x",
                                  kind,
                                  location,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null,
                                  null));
                        }))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Another unit has the tag");
    assertThat(units.count("tag", tag)).as("all or nothing").isZero();
  }

  @Test
  void noUnitWasInTwoPlaces() {
    String tag = ShelfScene.unique("E");
    Long unit = entries.enterUnit(unit(tag, null, null));
    entries.enterUse(use(unit, 1L, 50, 40));
    entries.enterUse(use(unit, 2L, 40, 30));
    assertThatThrownBy(() -> entries.enterUse(use(unit, 3L, 45, 42))).isInstanceOf(Refusal.class);
    assertThatThrownBy(() -> entries.enterUse(use(unit, 3L, 60, 35))).isInstanceOf(Refusal.class);
    assertThatThrownBy(() -> entries.enterUse(use(unit, 3L, 35, null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("with somebody else");
    entries.enterUse(use(unit, 4L, 10, null));
    assertThatThrownBy(() -> entries.enterUse(use(unit, 5L, 5, null))).isInstanceOf(Refusal.class);
  }

  @Test
  void anOutOfServiceUnitSaysWhy() {
    assertThatThrownBy(
            () -> entries.enterUnit(unit(ShelfScene.unique("E"), null, "out-of-service")))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting(Reason::field)
                    .containsExactly("state_reason"));
  }

  private EnteredUnit unit(String tag, String spot, String state) {
    return new EnteredUnit(
        "ref-" + tag,
        tag,
        "S" + tag,
        kind,
        location,
        spot,
        "both",
        state,
        null,
        LocalDate.of(2030, Month.JANUARY, 1),
        ago(1),
        12,
        null,
        null,
        null);
  }

  private EnteredUse use(Long unit, Long loan, int from, Integer to) {
    return new EnteredUse(
        unit,
        UseKind.LOAN,
        loan,
        ago(from),
        ago(from - 30),
        to == null ? null : ago(to),
        false,
        null);
  }

  private Instant ago(int days) {
    return scene.in(Duration.ofDays(-days)).truncatedTo(java.time.temporal.ChronoUnit.DAYS);
  }
}
