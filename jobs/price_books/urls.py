from django.urls import path

from jobs.price_books import comparing_views, views
from jobs.price_books.spreadsheets import views as spreadsheets

urlpatterns = [
    path("price-books/", views.price_books, name="price_books"),
    path("price-books/new/", views.edition_new, name="edition_new"),
    path("price-books/<int:pk>/", views.price_book, name="price_book"),
    path("price-books/<int:pk>/pricing/", views.edition_pricing, name="edition_pricing"),
    path("price-books/<int:pk>/copy/", views.edition_copy, name="edition_copy"),
    path("price-books/<int:pk>/closing/", views.edition_closing, name="edition_closing"),
    path("price-books/<int:pk>/close/", views.edition_close, name="edition_close"),
    path("price-books/<int:pk>/against/", comparing_views.against_chosen, name="edition_against_chosen"),
    path("price-books/<int:pk>/against/<int:other_pk>/", comparing_views.against, name="edition_against"),
    path(
        "price-books/<int:pk>/against/<int:other_pk>/open-quotes/",
        comparing_views.quotes_against,
        name="edition_against_quotes",
    ),
    path("price-books/<int:pk>/products.csv", spreadsheets.edition_export, name="edition_export"),
    path("price-books/<int:pk>/products.xlsx", spreadsheets.edition_workbook, name="edition_workbook"),
    path("price-books/<int:pk>/import/", spreadsheets.import_new, name="import_new"),
    path("price-books/<int:pk>/import/<int:import_pk>/", spreadsheets.import_preview, name="import_preview"),
    path(
        "price-books/<int:pk>/import/<int:import_pk>/columns/",
        spreadsheets.import_columns,
        name="import_columns",
    ),
    path("price-books/<int:pk>/import/<int:import_pk>/take/", spreadsheets.import_take, name="import_take"),
    path("price-books/<int:pk>/products/new/", views.product, name="product_new"),
    path("price-books/<int:pk>/products/<int:product_pk>/", views.product, name="product"),
    path("price-books/<int:pk>/<str:kind>/new/", views.edition_row, name="edition_row_new"),
    path("price-books/<int:pk>/<str:kind>/<int:row_pk>/", views.edition_row, name="edition_row"),
    path("price-books/<int:pk>/<str:kind>/<int:row_pk>/remove/", views.row_remove, name="row_remove"),
]
