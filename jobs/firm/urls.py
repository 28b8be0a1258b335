from django.urls import path

from jobs.firm import heat_views, views

urlpatterns = [
    path("log-in/", views.log_in, name="log_in"),
    path("log-out/", views.log_out, name="log_out"),
    path("sheet/", views.switch_sheet, name="switch_sheet"),
    path("people/", views.people, name="people"),
    path("people/new/", views.person, name="person_new"),
    path("people/<int:pk>/", views.person, name="person"),
    path("firm/", views.firm, name="firm"),
    path("firm/heat/", heat_views.heat, name="heat"),
    path("firm/heat/targets/new/", heat_views.target, name="target_new"),
    path("firm/heat/targets/<int:pk>/", heat_views.target, name="target"),
]
