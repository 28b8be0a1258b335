from django.urls import path

from jobs.firm import heat_views, views
from jobs.firm.settings import views as settings_views

urlpatterns = [
    path("log-in/", views.log_in, name="log_in"),
    path("log-out/", views.log_out, name="log_out"),
    path("sheet/", views.switch_sheet, name="switch_sheet"),
    path("people/", views.people, name="people"),
    path("people/new/", views.person, name="person_new"),
    path("people/<int:pk>/", views.person, name="person"),
    path("firm/", settings_views.firm_settings, name="firm"),
    path("firm/dress/", settings_views.firm_settings, {"section": "dress"}, name="firm_dress"),
    path("firm/payment/", settings_views.firm_settings, {"section": "payment"}, name="firm_payment"),
    path("firm/rights/", settings_views.firm_settings, {"section": "rights"}, name="firm_rights"),
    path("firm/working/", settings_views.firm_settings, {"section": "working"}, name="firm_working"),
    path("firm/<slug:section>/preview/", settings_views.firm_preview, name="firm_preview"),
    path("firm/<slug:section>/paper/", settings_views.firm_on_paper, name="firm_on_paper"),
    path("firm/logo/<str:sha256>.png", settings_views.firm_logo, name="firm_logo"),
    path("firm/colour/<str:colour>.css", settings_views.firm_colour, name="firm_colour"),
    path("firm/heat/", heat_views.heat, name="heat"),
    path("firm/heat/targets/new/", heat_views.target, name="target_new"),
    path("firm/heat/targets/<int:pk>/", heat_views.target, name="target"),
]
