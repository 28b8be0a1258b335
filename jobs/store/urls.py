from django.urls import path

from jobs.store import views

urlpatterns = [
    path("store/", views.store, name="store"),
    path("store/<int:pk>/take-out/", views.store_take_out, name="store_take_out"),
    path("jobs/<str:number>/boards/", views.job_take_boards, name="job_take_boards"),
    path("jobs/<str:number>/offcuts/", views.job_keep_offcuts, name="job_keep_offcuts"),
]
