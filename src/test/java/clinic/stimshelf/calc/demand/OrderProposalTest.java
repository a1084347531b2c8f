package clinic.stimshelf.calc.demand;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.demand.OrderProposal.ShelfLife;
import clinic.stimshelf.calc.demand.OrderProposal.Supply;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class OrderProposalTest {

  private static final OptionalDouble NONE = OptionalDouble.empty();

  @Test
  void nothingIsOrderedAboveTheReorderPoint() {
    assertThat(OrderProposal.of(11, 10, OptionalDouble.of(40), new Supply(10, 0), null).packs())
        .isZero();
    assertThat(OrderProposal.of(10, 10, OptionalDouble.of(40), new Supply(10, 0), null).packs())
        .isEqualTo(40);
  }

  @Test
  void theGapWinsOverTheEconomicQuantity() {
    assertThat(OrderProposal.of(-3, 10, OptionalDouble.of(4), new Supply(1, 0), null).packs())
        .isEqualTo(14);
    assertThat(OrderProposal.of(10, 10, NONE, new Supply(6, 20), null).packs()).isEqualTo(24);
  }

  @Test
  void shelfLifeCutsToWholeCases() {
    ShelfLife thirty = new ShelfLife(Pmf.certain(30), 0.9);
    assertThat(OrderProposal.of(5, 6, OptionalDouble.of(60), new Supply(10, 0), thirty))
        .isEqualTo(new OrderProposal(20, true, false));
    assertThat(OrderProposal.of(5, 6, OptionalDouble.of(20), new Supply(10, 0), thirty))
        .isEqualTo(new OrderProposal(20, false, false));
  }

  @Test
  void aMinimumThatMayExpireIsProposedWithAWarning() {
    ShelfLife eight = new ShelfLife(Pmf.certain(8), 0.9);
    assertThat(OrderProposal.of(5, 6, NONE, new Supply(10, 0), eight))
        .isEqualTo(new OrderProposal(10, false, true));
    assertThat(OrderProposal.of(5, 6, OptionalDouble.of(50), new Supply(10, 20), eight))
        .isEqualTo(new OrderProposal(20, true, true));
  }

  @Property(tries = 150)
  void everythingOrderedIsUsedWithTheCertaintyUnlessWarned(
      @ForAll @DoubleRange(min = 1, max = 80) double meanUntilExpiry,
      @ForAll @DoubleRange(min = 0.5, max = 0.99) double certainty,
      @ForAll @IntRange(min = -5, max = 10) int position,
      @ForAll @IntRange(min = 1, max = 7) int packsPerCase,
      @ForAll @IntRange(max = 90) int economic) {
    Pmf demand = CompoundPoisson.single(meanUntilExpiry).over(1);
    OrderProposal order =
        OrderProposal.of(
            position,
            10,
            OptionalDouble.of(economic),
            new Supply(packsPerCase, 0),
            new ShelfLife(demand, certainty));
    assertThat(order.packs()).isPositive();
    assertThat(order.packs() % packsPerCase).isZero();
    boolean used = demand.above(position + order.packs() - 1) >= certainty - 1e-12;
    assertThat(used).isEqualTo(!order.minimumMayExpire());
    if (order.cutByShelfLife() && !order.minimumMayExpire()) {
      assertThat(demand.above(position + order.packs() + packsPerCase - 1)).isLessThan(certainty);
    }
  }
}
