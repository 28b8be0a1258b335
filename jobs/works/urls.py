from django.urls import path

from jobs.works import views

urlpatterns = [
    path("jobs/", views.jobs, name="jobs"),
    path("jobs/<str:number>/", views.job, name="job"),
    path("jobs/<str:number>/book/", views.job_book, name="job_book"),
    path("jobs/<str:number>/start/", views.job_start, name="job_start"),
    path("jobs/<str:number>/complete/", views.job_complete, name="job_complete"),
    path("jobs/<str:number>/hand-over/", views.job_hand_over, name="job_hand_over"),
    path("jobs/<str:number>/close/", views.job_close, name="job_close"),
    path("jobs/<str:number>/sheet/", views.job_sheet, name="job_sheet"),
    path("jobs/<str:number>/sheet/paper/", views.job_sheet_paper, name="job_sheet_paper"),
]
