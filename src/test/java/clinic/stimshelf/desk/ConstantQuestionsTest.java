package clinic.stimshelf.desk;

import static clinic.stimshelf.desk.DeskScene.DUE;
import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;

/** However many loans and requests there are, the desk asks the database as often. */
@QuarkusTest
class ConstantQuestionsTest {
  @Inject DeskScene scene;
  @Inject Today today;
  @Inject SessionFactory factory;

  @Test
  @ActivateRequestContext
  void theDeskAsksAsOftenForFiveOfEachAsForTwo() {
    DeskScene.Clinic clinic = scene.clinic();
    fill(clinic, 2);
    long few = asked(clinic);
    fill(clinic, 3);
    long many = asked(clinic);
    assertThat(many).isEqualTo(few).isLessThan(60);
  }

  /** Loans that are late, requests that wait, units to inspect and ready ones. */
  private void fill(DeskScene.Clinic clinic, int each) {
    for (int i = 0; i < each; i++) {
      scene.at(DeskScene.START, "09:00");
      scene.lent(clinic);
      scene.asked(clinic);
      scene.ready(clinic);
      scene.toInspect(clinic);
    }
  }

  private long asked(DeskScene.Clinic clinic) {
    scene.at(DUE.plusDays(1), "09:00");
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    TodayView view = today.at(clinic.location());
    assertThat(view.late()).isNotEmpty();
    assertThat(view.goingOut()).isNotEmpty();
    long count = statistics.getPrepareStatementCount();
    statistics.setStatisticsEnabled(false);
    return count;
  }
}
