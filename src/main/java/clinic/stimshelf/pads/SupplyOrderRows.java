package clinic.stimshelf.pads;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class SupplyOrderRows implements PanacheRepository<SupplyOrder> {}
