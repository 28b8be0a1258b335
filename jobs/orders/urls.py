from django.urls import path

from jobs.orders import views

urlpatterns = [
    path("orders/", views.orders, name="orders"),
    path("orders/<str:number>/", views.order, name="order"),
    path("orders/<str:number>/send/", views.order_send, name="order_send"),
    path("orders/<str:number>/received/", views.order_receive, name="order_receive"),
    path("orders/<str:number>/paper/", views.order_paper, name="order_paper"),
    path("orders/<str:number>/csv/", views.order_csv, name="order_csv"),
    path("jobs/<str:job_number>/orders/", views.orders_make, name="orders_make"),
]
