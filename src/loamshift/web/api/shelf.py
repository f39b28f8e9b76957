"""The shelf: products with their prices."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest
from ninja import Query, Router

from loamshift.domain.message import Given, message
from loamshift.errors import CaseError
from loamshift.store.models import Product
from loamshift.store.scope import found, kept
from loamshift.web.api.beds import ASKED, LOOKED, WRITES
from loamshift.web.api.door import added, changed, deleted
from loamshift.web.api.shapes import (
    ActOut,
    ListQuery,
    ProductIn,
    ProductOut,
    ProductPut,
    ProductsOut,
    VersionQuery,
    brief,
    page_of,
)
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.products.entries import read_product

router = Router(tags=["shelf"])


def _fill(request: HttpRequest, product: Product, given: ProductIn) -> None:
    """Read it as the shelf's form does, so that the case file can take every product."""
    said = {
        name: "" if value is None else str(value)
        for name, value in given.model_dump(exclude={"version", "in_stock"}).items()
    }
    said["in_stock"] = "yes" if given.in_stock else "no"
    read = read_product(said, currency=office_of(request).currency)
    if read.faults:
        raise CaseError(read.faults, source="the product")
    for name, value in read.values.items():
        setattr(product, name, value)


@router.get("/products", response={200: ProductsOut, **ASKED})
def list_products(request: HttpRequest, asked: Query[ListQuery]) -> Any:
    """Products by name."""
    return page_of(found(kept(Product, office_of(request)), asked.search), asked)


@router.post("/products", response={201: ProductOut, **WRITES})
def add_product(request: HttpRequest, given: ProductIn) -> Any:
    """Put a product on the shelf."""
    product = Product()
    _fill(request, product, given)
    return added(request, product, message("products-added", product=Given(product.name)))


@router.get("/products/{uuid:pk}", response={200: ProductOut, **LOOKED})
def get_product(request: HttpRequest, pk: UUID) -> Any:
    """One product."""
    return brief(kept_or_404(request, Product, pk))


@router.put("/products/{uuid:pk}", response={200: ProductOut, **WRITES})
def put_product(request: HttpRequest, pk: UUID, given: ProductPut) -> Any:
    """Change a product; 409 where somebody else changed it since."""
    product = kept_or_404(request, Product, pk)
    _fill(request, product, given)
    what = message("products-changed", product=Given(product.name))
    return changed(request, product, what, seen=given.version)


@router.delete("/products/{uuid:pk}", response={200: ActOut, **WRITES})
def delete_product(request: HttpRequest, pk: UUID, seen: Query[VersionQuery]) -> Any:
    """Put a product away; for thirty days it can be taken back."""
    product = kept_or_404(request, Product, pk)
    what = message("products-deleted", product=Given(product.name))
    return deleted(request, product, what, seen=seen.version)
