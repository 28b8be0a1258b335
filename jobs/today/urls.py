from django.urls import path

from jobs.today import views

urlpatterns = [
    path("", views.today, name="today"),
    path("search/", views.search, name="search"),
]
