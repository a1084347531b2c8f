package clinic.stimshelf.shelf;

import clinic.stimshelf.codes.labels.LabelStock;
import clinic.stimshelf.codes.labels.LabelStocks;
import clinic.stimshelf.web.ConfigFiles;
import clinic.stimshelf.web.NotFound;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.List;

/** The label stock of {@code config/label-sizes.yaml}. */
@Startup
@Singleton
public class TagStock {
  private final LabelStocks stocks;

  @Inject
  TagStock(ConfigFiles files) {
    stocks = files.read("label-sizes.yaml", LabelStocks.class);
  }

  /** At least one; the first is proposed. */
  public List<LabelStock> all() {
    return stocks.labels();
  }

  /**
   * @throws NotFound if the file has none of that key
   */
  public LabelStock of(String key) {
    return stocks
        .find(key)
        .orElseThrow(() -> new NotFound("There is no label stock “" + key + "”."));
  }
}
