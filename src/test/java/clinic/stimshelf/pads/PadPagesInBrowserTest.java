package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import com.microsoft.playwright.options.Cookie;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Everybody can use the pages of pads: wide, narrow, with a reader, without a script. */
@QuarkusTest
class PadPagesInBrowserTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject PadLots lots;
  @Inject Supply supply;
  @Inject KnownDemand known;
  @Inject PadTypeRows types;

  @TestHTTPResource("/")
  String base;

  @Test
  void every_page_passes_axe_and_fits_a_phone() {
    // Other tests leave hundreds of pad types behind; no clinic lends with so many.
    QuarkusTransaction.requiringNew().run(() -> types.update("active = false"));
    Long here = crew.location(Crew.unique("LOOK"));
    Long there = crew.location(Crew.unique("LOOK"));
    PadTypeView type = cupboard.type();
    Long lot = filled(here, type);
    Crew.Browser signedIn =
        Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, here, there));
    List<String> pages = new ArrayList<>();
    for (String page :
        List.of(
            "",
            "/drawer-take",
            "/receive",
            "/count",
            "/move",
            "/orders",
            "/orders/new",
            "/ledger",
            "/types/new",
            "/types/" + type.code(),
            "/" + type.code(),
            "/lots/" + lot,
            "/ledger/" + cupboard.newest(lot))) {
      pages.add("pads" + page);
    }
    try (Browser browser = Browser.at(base)) {
      browser
          .page()
          .context()
          .addCookies(List.of(new Cookie("stimshelf", signedIn.cookie()).setUrl(base)));
      for (String page : pages) {
        browser.page().setViewportSize(1440, 900);
        browser.page().navigate(base + page);
        browser
            .page()
            .locator("details.whole, td details, figure details")
            .all()
            .forEach(details -> details.evaluate("d => { d.open = true; }"));
        browser.axeFindsNothing();
        browser.picture("pads-review-" + page.replaceAll("[^a-z]", "-"));
        browser.fitsAt(360);
        browser.fitsAt(320);
      }
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private Long filled(Long here, PadTypeView type) {
    Long lot = cupboard.lot(type, here, "AB/" + type.code(), 200, 30);
    Long held = cupboard.lot(type, here, "HELD-" + type.code(), 300, 6);
    lots.quarantine(held, "gel came off at the edge", false, cupboard.now());
    cupboard.lot(type, here, "SOON-" + type.code(), 3, 2);
    for (int i = 0; i < 8; i++) {
      stock.drawerTake(
          new DrawerTake(
              lot, null, here, 2, DrawerReason.TREATMENT, "two thighs", null, "the box in front"),
          cupboard.now());
    }
    stock.give(
        null, cupboard.patient(here), here, List.of(new PackLine(lot, 1, "front")), cupboard.now());
    supply.order(
        new NewOrder(
            here,
            null,
            null,
            null,
            "with the towels",
            List.of(new NewOrder.Line(type.code(), 10, null))),
        cupboard.now());
    List<DatedPacks> dated = new ArrayList<>();
    for (int i = 1; i <= 5; i++) {
      dated.add(
          new DatedPacks(
              type.code(),
              cupboard.today(here).plusDays(2L * i),
              2,
              0.8,
              "Lindqvist, thigh",
              false,
              DatedPacks.Kind.PROGRAM));
    }
    known.at(here, dated, 1);
    return lot;
  }
}
