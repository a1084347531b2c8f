package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.pads.PadPast.Lived;
import clinic.stimshelf.pads.PadPast.LotUse;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What is counted of the past, for trying other numbers with. */
@QuarkusTest
class PadPastTest {
  @Inject Cupboard cupboard;
  @Inject PadSets sets;
  @Inject PadPast past;
  @Inject PadWear wear;

  private Long here;
  private PadTypeView type;
  private Long lot;

  @BeforeEach
  void ownCupboard() {
    here = cupboard.location();
    type = cupboard.type();
    lot = cupboard.lot(type, here, "A 7", 300, 40);
  }

  @Test
  void calculators_begin_with_what_the_plans_count_on() {
    ended(12, PadOutcome.WORN, 20);
    ended(12, PadOutcome.WONT_STICK, 30);
    ended(12, PadOutcome.STILL_GOOD, 30);
    ended(12, PadOutcome.LOST, 30);
    ended(25, PadOutcome.DRIED_OUT, 30);
    ended(0, PadOutcome.WONT_STICK, 30);
    ended(5, PadOutcome.WORN, 1_200);

    assertThat(past.lives(type.code()))
        .containsExactly(
            new Lived(0.5, true, 1),
            new Lived(12, false, 2),
            new Lived(12, true, 2),
            new Lived(25, true, 1));
    // Rated for 20 sessions: one wore before that; not sticking and dried out are early anyway.
    assertThat(past.lots(type.code(), here)).containsExactly(new LotUse("A 7", 4, 73));
    assertThat(wear.of(type.code(), here).observed()).as("the same sets").isEqualTo(6);
  }

  @Test
  void nothing_yet_is_no_failure() {
    assertThat(past.lives(type.code())).isEmpty();
    assertThat(past.lots(type.code(), here)).isEmpty();
    assertThat(past.use(type.code(), here).packs()).isZero();
  }

  private void ended(int uses, PadOutcome outcome, int daysAgo) {
    sets.enterPadSet(
        null,
        new NewPadSet(
            cupboard.patient(here),
            null,
            here,
            type.code(),
            lot,
            2,
            null,
            cupboard.today(here).minusDays(daysAgo + 20L)),
        uses,
        0,
        outcome,
        cupboard.today(here).minusDays(daysAgo),
        cupboard.daysAgo(daysAgo, null));
  }
}
