from django.urls import path

from jobs.surveys.offline import views

urlpatterns = [
    path("sw.js", views.service_worker, name="service_worker"),
    path("surveys/on-this-tablet/", views.on_this_tablet, name="on_this_tablet"),
    path("surveys/kept/sheet/", views.kept_sheet, name="kept_sheet"),
    path("surveys/kept/<section:section>/", views.kept_page, name="kept_page"),
]
