package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.ConfigFiles;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** What a clinic may write into its wipe products and its checklist. */
class ShelfFilesTest {

  @Test
  void theFilesThatArePackedAreReadable() throws Exception {
    WipeProducts products =
        new WipeProducts(
            ConfigFiles.parse(
                WipeProducts.FILE,
                Files.readString(Path.of("config", WipeProducts.FILE)),
                WipeProducts.Listed.class));
    // At least 1 minute for surfaces that touch intact skin: CDC guideline for disinfection and
    // sterilization in healthcare facilities (2008, updated 2019), table 1.
    assertThat(products.all()).allSatisfy(p -> assertThat(p.contactMinutes()).isPositive());
    Checklist checklist =
        new Checklist(
            ConfigFiles.parse(
                Checklist.FILE,
                Files.readString(Path.of("config", Checklist.FILE)),
                Checklist.Listed.class));
    assertThat(checklist.items())
        .extracting(Checklist.Item::part)
        .contains("look-over", "function");
  }

  @Test
  void everyFaultOfTheProductsIsNamedAtOnce() {
    assertThatThrownBy(
            () ->
                products(
                    """
                    products:
                      - { key: A B, name: "", contact-minutes: 0, note: x }
                      - { key: c, name: C, contact-minutes: 61 }
                      - { key: c, name: C, contact-minutes: 2 }
                    """))
        .hasMessageContaining("“A B” needs a key")
        .hasMessageContaining("needs a name")
        .hasMessageContaining("from 1 to 60")
        .hasMessageContaining("“c” stands there twice");
    assertThatThrownBy(() -> products("products: []")).hasMessageContaining("names no product");
  }

  @Test
  void everyFaultOfTheChecklistIsNamedAtOnce() {
    assertThatThrownBy(
            () ->
                new Checklist(
                    ConfigFiles.parse(
                        Checklist.FILE,
                        """
                        items:
                          - { key: one, part: sniff, question: "" }
                          - { key: one, part: function, question: "Fine?" }
                        """,
                        Checklist.Listed.class)))
        .hasMessageContaining("needs a part")
        .hasMessageContaining("needs a question")
        .hasMessageContaining("stands there twice");
  }

  private static WipeProducts products(String text) {
    return new WipeProducts(ConfigFiles.parse(WipeProducts.FILE, text, WipeProducts.Listed.class));
  }
}
